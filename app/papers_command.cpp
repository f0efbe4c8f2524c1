// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QDir>
#include <algorithm>
#include <iostream>

#include "app/commands.h"
#include "app/options.h"
#include "app/paper_people.h"
#include "app/paper_writing.h"

namespace evenfall::app {
namespace {

QString paper_names() {
    return QString::fromStdString(all_words<Paper>());
}

/// The papers that were named, none for all of them; empty where a name is none.
std::optional<std::vector<Paper>> papers_named(const QString& names) {
    std::vector<Paper> papers;
    if (names.isEmpty()) return papers;
    for (const QString& name : names.split(QLatin1Char(','))) {
        const auto paper = from_word<Paper>(name.trimmed().toStdString());
        if (!paper) return std::nullopt;
        if (std::ranges::find(papers, *paper) == papers.end()) papers.push_back(*paper);
    }
    return papers;
}

QString language_names() {
    QStringList names;
    for (const std::string& language : languages(resources_folder()))
        names << QString::fromStdString(language);
    return names.join(QStringLiteral(", "));
}

void describe(Options& options) {
    options.value(QStringLiteral("out"), QStringLiteral("The folder to write to; it is made."),
                  QStringLiteral("folder"));
    options.value(QStringLiteral("paper"), QStringLiteral("Some of: ") + paper_names(),
                  QStringLiteral("papers"));
    options.value(QStringLiteral("size"), QStringLiteral("a4 or letter."), QStringLiteral("size"),
                  QStringLiteral("a4"));
    options.value(
        QStringLiteral("language"),
        QStringLiteral("One of: ") + language_names() + QStringLiteral("; the person's own otherwise."),
        QStringLiteral("language"));
    options.flag(QStringLiteral("large-print"), QStringLiteral("Print what is followed at 18 points."));
    options.flag(QStringLiteral("replace"), QStringLiteral("Write over papers that are there."));
    options.flag(QStringLiteral("name-in-metadata"),
                 QStringLiteral("Let the PDF's title name the person; it does not otherwise."));
    options.value(QStringLiteral("agent"),
                  QStringLiteral("Only those who take it today, by its generic name."),
                  QStringLiteral("name"));
    options.flag(QStringLiteral("unprinted"),
                 QStringLiteral("Only those whose signed steps no schedule shows that was noted as gone out. "
                                "Case files: all with signed steps."));
    options.add_store_access();
}

bool is_language(const QString& language) {
    return language.isEmpty() ||
           std::ranges::count(languages(resources_folder()), language.toStdString()) > 0;
}

/// The generic name as the formulary writes it; empty where it knows none like that.
std::string agent_named(const QString& typed, const Formulary& formulary) {
    std::string agent = typed.trimmed().toLower().toStdString();
    return formulary.find(agent) == nullptr ? std::string() : agent;
}

QString agent_names(const Formulary& formulary) {
    QStringList names;
    for (const auto& [name, drug] : formulary.drugs) names << QString::fromStdString(name);
    return names.join(QStringLiteral(", "));
}

Exit write_for(const PeopleAsked& asked, const Resources& resources, Writing& writing) {
    const bool several = names_several(asked.named);
    const auto say_done = [several](const std::string& name, int written, int number, int count) {
        if (several)
            std::cerr << number << " of " << count << ": " << name << ", " << written << " papers"
                      << std::endl;
    };
    const auto write = [&](const PaperPerson& person, int number, int count) {
        const int written = writing.write(person);
        say_done(person.name, written, number, count);
    };
    const auto refused = [&](const std::string& name, const Faults& faults, int number, int count) {
        writing.refuse(name, faults);
        say_done(name, 0, number, count);
    };
    const auto passed_over = [&](const std::string& name) { writing.pass_over(name); };
    const Visited visited = visit_people(asked, resources, {write, refused, passed_over});
    if (visited.several)
        writing.print_summary();
    else if (visited.exit != Exit::done)
        writing.leave_older_files();
    return visited.exit == Exit::done ? writing.exit() : visited.exit;
}

}  // namespace

Exit papers_command(const QStringList& words) {
    Options options(
        QStringLiteral("evenfall papers CASE --out FOLDER"),
        QStringLiteral(
            "Writes the papers of a case as PDF. CASE is a case file, - for standard input, "
            "STORE#reference (or STORE#record), a folder of case files, or STORE#pattern with * and ?. From "
            "a store, a schedule that was written is noted in the record as gone out, as the window does it: "
            "--unprinted then passes the person over, and the next schedule says which it replaces. "
            "Of other papers and of case files nothing is noted."));
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
    if (!is_language(language))
        return Options::wrong(QStringLiteral("--language is one of: ") + language_names());

    const auto resources = load_resources();
    if (!resources) return Exit::our_fault;
    const QString typed = options.of(QStringLiteral("agent"));
    const std::string agent = agent_named(typed, resources->formulary);
    if (options.has(QStringLiteral("agent")) && agent.empty())
        return Options::wrong(
            QStringLiteral("--agent “%1” is none of: %2").arg(typed, agent_names(resources->formulary)));
    if (!QDir().mkpath(folder)) {
        print_faults({{"app-cannot-write", folder.toStdString(), {}}}, resources->texts);
        return Exit::input_wrong;
    }
    const PeopleAsked asked{options.rest().at(0).toStdString(),
                            options.store_access(),
                            {agent, options.has(QStringLiteral("unprinted"))}};
    const PaperBatch batch{
        *named,
        {*size, options.has(QStringLiteral("large-print")), options.has(QStringLiteral("name-in-metadata"))},
        language.toStdString(),
        options.has(QStringLiteral("replace"))};
    Writing writing(batch, folder, names_several(asked.named), resources->texts);
    return write_for(asked, *resources, writing);
}

}  // namespace evenfall::app
