// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QDir>
#include <iostream>

#include "app/commands.h"
#include "app/demo.h"
#include "app/options.h"
#include "app/paper_writing.h"
#include "app/picture.h"
#include "app/window.h"
#include "theme/theme.h"

namespace evenfall::app {
namespace {

/// The person of the demo caseload whose pages are pictured: nobody in danger, with the longest signed
/// course.
PatientId someone_to_show(Desk& desk, LocalTime now) {
    Faults faults;
    PatientId shown;
    std::size_t longest = 0;
    for (const CaseloadLine& line : desk.caseload(now, faults)) {
        const auto record = desk.record(line.patient);
        if (!record || line.daily.is_zero() || line.reasons.front().urgency == Urgency::red_flag) continue;
        if ((*record)->intake.empty() || (*record)->plans.size() <= longest) continue;
        longest = (*record)->plans.size();
        shown = line.patient;
    }
    return shown;
}

bool save(QWidget& window, const QString& file, const Texts& texts) {
    const auto saved = save_picture(window, file, PictureOptions{.replace = true});
    if (!saved) print_faults(saved.faults(), texts);
    return saved.ok();
}

bool save_pictures(Workplace& place, const QString& folder, const Texts& texts) {
    bool all = true;
    for (const ui::PageMaker& maker : all_pages()) {
        place.window().show_page(maker.id);
        all = save(place.window(), folder + QStringLiteral("/") + maker.id + QStringLiteral(".png"), texts) &&
              all;
    }
    ui::apply_theme(*qApp, ui::ThemeKind::dark);
    place.window().show_page(QStringLiteral("course"));
    return save(place.window(), folder + QStringLiteral("/course-dark.png"), texts) && all;
}

/// The papers of everyone whose signed steps run today.
bool save_papers(Desk& desk, const QString& folder, LocalTime now, const Texts& texts) {
    PaperBatch batch;
    batch.language.clear();
    batch.replace = true;
    Writing writing(batch, folder, true, texts);
    for (const PatientId& patient : desk.patients()) {
        const auto record = desk.record(patient);
        if (!record || !(*record)->person) continue;
        const PaperPerson person =
            paper_person(desk, **record, (*record)->person->value.reference, Zone::of_machine(), now);
        if (papers::valid_through(person.source)) writing.write(person);
    }
    return writing.exit() == Exit::done;
}

}  // namespace

Exit demo_command(const QStringList& words) {
    Options options(QStringLiteral("evenfall demo FOLDER"),
                    QStringLiteral("Writes the demo caseload's papers and pictures to a folder."));
    if (const auto leave = options.read(words, 1, 1)) return *leave;
    const QString folder = options.rest().at(0);
    if (!QDir().mkpath(folder))
        return Options::wrong(QStringLiteral("this folder cannot be made: ") + folder);
    prepare_application();
    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    const LocalTime now = machine_time();
    auto desk = demo_desk(*resources, now);
    if (!desk) return Exit::our_fault;
    const PatientId someone = someone_to_show(*desk, now);
    ui::apply_theme(*qApp, ui::ThemeKind::light);
    Workplace place(std::move(*desk), resources->texts, [now] { return now; });
    place.workbench().select(someone);
    const bool pictures = save_pictures(place, folder, resources->texts);
    const bool papers = save_papers(place.workbench().desk(), folder, now, resources->texts);
    return pictures && papers ? Exit::done : Exit::our_fault;
}

}  // namespace evenfall::app
