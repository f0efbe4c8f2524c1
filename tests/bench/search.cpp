// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

#include "formulary/formulary.h"
#include "rules/texts.h"
#include "shell/caseload_pane.h"

// What a key typed into the search of a long list costs until it is painted, and what one new entry does.

namespace evenfall::ui {
namespace {

/// Of the processor, so that a machine that does other things as well measures the same.
double milliseconds(const auto& act) {
    const std::clock_t start = std::clock();
    act();
    return 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

std::unique_ptr<Workbench> clinic_of(int people) {
    const LocalTime now = at_clock(day_at(2026, 11, 24), {9 * 60});
    const Instant at(now.time_since_epoch());
    std::vector<Event> events;
    for (int number = 0; number < people; ++number) {
        std::string id = std::to_string(number);
        id.insert(0, 32 - id.size(), '0');
        Person person;
        person.name = std::string(1, char('A' + number % 26)) + "a" +
                      std::string(1, char('a' + number % 23)) + "o Person " + std::to_string(number);
        person.reference = std::to_string(10'000 + number);
        events.push_back(write_change("", id, person));
        RegimenRecorded taken;
        taken.regimen = {day_of(now) - std::chrono::days(30),
                         {{{{8 * 60}, "diazepam", Dose::milligrams(10), "", ""}}}};
        events.push_back(write_change("", id, taken));
    }
    auto log = log_in_memory(
        "bench", [at] { return at; }, std::move(events));
    auto desk = Desk::open(std::move(log), load_formulary(resources_folder() / "formulary.json").value(),
                           Rules::load(resources_folder() / "rules.json").value(),
                           {"bench", "Bench", Role::nurse, ""});
    return std::make_unique<Workbench>(std::move(*desk), Texts::load(resources_folder(), "en").value(),
                                       [now] { return now; });
}

void measure(int people) {
    auto workbench = clinic_of(people);
    CaseloadPane pane(*workbench);
    pane.resize(292, 900);
    pane.show();
    while (pane.model().missing() > 0) QApplication::processEvents();
    pane.repaint();
    QApplication::processEvents();
    double worst = 0;
    for (const char* typed : {"a", "ab", "abo", "abo p", "abo pe", "abo per", "abo", "a", "", "9", "99", ""})
        worst = std::max(worst, milliseconds([&] {
                             pane.search_field()->setText(QLatin1String(typed));
                             pane.repaint();
                             QApplication::processEvents();
                         }));
    const PatientId patient = workbench->desk().patients()[static_cast<std::size_t>(people / 2)];
    workbench->select(patient);
    const double entry = milliseconds([&] {
        if (!workbench->carry_out({NoteAdded{"seen"}})) std::abort();
        pane.repaint();
    });
    std::printf("%d people: worst key %.1f ms until painted; one new entry %.1f ms\n", people, worst, entry);
}

}  // namespace
}  // namespace evenfall::ui

int main(int count, char** arguments) {
    QApplication app(count, arguments);
    evenfall::ui::measure(1000);
    evenfall::ui::measure(5000);
    return 0;
}
