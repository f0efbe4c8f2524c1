// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QDir>
#include <algorithm>

#include "app/case_desk.h"
#include "app/commands.h"
#include "app/options.h"
#include "app/paper_batch.h"
#include "casework/record_check.h"

namespace evenfall::app {
namespace {

QString paper_names() {
    return QString::fromStdString(all_words<Paper>());
}

/// The papers that were named, or all; empty where a name is none.
std::optional<std::vector<Paper>> papers_named(const QString& names) {
    std::vector<Paper> papers;
    if (names.isEmpty()) {
        for (const auto& [paper, name] : Words<Paper>::table) papers.push_back(paper);
        return papers;
    }
    for (const QString& name : names.split(QLatin1Char(','))) {
        const auto paper = from_word<Paper>(name.trimmed().toStdString());
        if (!paper) return std::nullopt;
        if (std::ranges::find(papers, *paper) == papers.end()) papers.push_back(*paper);
    }
    return papers;
}

void describe(Options& options) {
    options.value(QStringLiteral("out"), QStringLiteral("The folder to write to; it is made."),
                  QStringLiteral("folder"));
    options.value(QStringLiteral("paper"), QStringLiteral("Some of: ") + paper_names(),
                  QStringLiteral("papers"));
    options.value(QStringLiteral("size"), QStringLiteral("a4 or letter."), QStringLiteral("size"),
                  QStringLiteral("a4"));
    options.value(QStringLiteral("language"), QStringLiteral("en or es; the person's own otherwise."),
                  QStringLiteral("language"));
    options.flag(QStringLiteral("large-print"), QStringLiteral("Print what is followed at 18 points."));
    options.flag(QStringLiteral("replace"), QStringLiteral("Write over papers that are there."));
    options.add_store_access();
}

}  // namespace

Exit papers_command(const QStringList& words) {
    Options options(QStringLiteral("evenfall papers CASE --out FOLDER"),
                    QStringLiteral("Writes the papers of a case as PDF."));
    describe(options);
    if (const auto leave = options.read(words, 1, 1)) return *leave;
    const QString folder = options.of(QStringLiteral("out"));
    const QString names = options.of(QStringLiteral("paper"));
    const auto named = papers_named(names);
    const auto size = from_word<ui::PaperSize>(options.of(QStringLiteral("size")).toStdString());
    const QString language = options.of(QStringLiteral("language"));
    if (folder.isEmpty()) return Options::wrong(QStringLiteral("--out names the folder to write to"));
    if (!named) return Options::wrong(QStringLiteral("--paper is some of: ") + paper_names());
    if (!size) return Options::wrong(QStringLiteral("--size is a4 or letter"));
    if (!language.isEmpty() && language != QStringLiteral("en") && language != QStringLiteral("es"))
        return Options::wrong(QStringLiteral("--language is en or es"));

    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    Exit exit = Exit::done;
    const auto source =
        read_source(options.rest().at(0).toStdString(), options.store_access(), *resources, exit);
    if (!source) return exit;
    auto lying = desk_of_case(*source, *resources);
    if (!lying) return Exit::input_wrong;
    const auto record = lying->desk.record(lying->patient);
    if (!record) return Exit::our_fault;
    if (!QDir().mkpath(folder)) {
        print_faults({{"app-cannot-write", folder.toStdString(), {}}}, resources->texts);
        return Exit::input_wrong;
    }
    PaperBatch batch{*named,
                     {*size, options.has(QStringLiteral("large-print"))},
                     language.toStdString(),
                     options.has(QStringLiteral("replace"))};
    if (batch.language.empty()) batch.language = (*record)->person->value.language;
    const Desk& desk = lying->desk;
    papers::PaperSource paper = papers::source_from_record(**record, desk.clinic(), desk.formulary(),
                                                           desk.rules(), day_of(source->given.as_of));
    papers::take_check(paper, **record, desk.rules(), source->given.zone, source->given.as_of,
                       usual_judged_days(desk.rules()));
    if (source->given.prescriber) paper.made_by = source->given.prescriber->name;
    if (names.isEmpty() && !paper.judged) std::erase(batch.papers, Paper::report);
    const Faults faults = write_papers(paper, batch, folder);
    print_faults(faults, resources->texts);
    return faults.empty() ? Exit::done : Exit::input_wrong;
}

}  // namespace evenfall::app
