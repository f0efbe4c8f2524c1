// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QDir>
#include <algorithm>
#include <iostream>
#include <set>

#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/options.h"
#include "app/paper_batch.h"
#include "app/paper_people.h"

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
    options.value(QStringLiteral("agent"), QStringLiteral("Only those who take it."), QStringLiteral("name"));
    options.flag(QStringLiteral("unprinted"),
                 QStringLiteral("Only those whose signed steps no schedule shows yet."));
    options.add_store_access();
}

/// A reference as a part of a file's name: what could name a folder, or hide, becomes a line.
QString file_name_of(const std::string& reference) {
    QString name = QString::fromStdString(reference);
    for (QChar& each : name)
        if (!each.isLetterOrNumber() && each != u'.' && each != u'-') each = u'_';
    if (name.startsWith(u'.')) name[0] = u'_';
    return name;
}

/// What is written for each person, and what could not be.
class Writing {
  public:
    Writing(PaperBatch batch, bool own_language, bool all_papers, QString folder, bool several,
            const Texts& texts)
        : batch_(std::move(batch)),
          own_language_(own_language),
          all_papers_(all_papers),
          folder_(std::move(folder)),
          several_(several),
          texts_(texts) {}

    void write(const PaperPerson& person, int number, int count) {
        PaperBatch batch = batch_;
        if (own_language_) batch.language = person.language;
        if (all_papers_ && !person.source.judged) std::erase(batch.papers, Paper::report);
        const QString prefix = several_ ? file_name_of(person.name) + QLatin1Char('-') : QString();
        const int before = written_;
        if (several_ && !used_.insert(prefix).second)
            return note(person.name, {{"app-name-used", prefix.toStdString(), {}}});
        const Faults faults = write_papers(person.source, batch, folder_, prefix, shelf_, written_);
        ++people_;
        if (several_)
            std::cerr << number << " of " << count << ": " << person.name << ", " << written_ - before
                      << " papers" << std::endl;
        note(person.name, faults);
    }
    void note(const std::string& name, const Faults& faults) {
        print_faults_in(name, faults, texts_);
        for (const Fault& fault : faults) not_made_.push_back({{"of", name}, {"what", texts_.text(fault)}});
    }
    void print_summary() const {
        std::cout << nlohmann::ordered_json{{"people", people_},
                                            {"papers", written_},
                                            {"not_made", not_made_}}
                         .dump(2)
                  << std::endl;
    }
    bool all_made() const { return not_made_.empty(); }

  private:
    PaperBatch batch_;
    bool own_language_;
    bool all_papers_;
    QString folder_;
    bool several_;
    const Texts& texts_;
    TextShelf shelf_;
    std::set<QString> used_;  ///< beginnings of file names: nobody's papers go over another's
    int people_ = 0;
    int written_ = 0;
    nlohmann::ordered_json not_made_ = nlohmann::ordered_json::array();
};

bool is_language(const QString& language) {
    return language.isEmpty() ||
           std::ranges::count(languages(resources_folder()), language.toStdString()) > 0;
}

Exit write_for(const PeopleAsked& asked, const Resources& resources, Writing& writing) {
    const Visited visited = visit_people(
        asked, resources,
        {[&](const PaperPerson& person, int number, int count) { writing.write(person, number, count); },
         [&](const std::string& name, const Faults& faults) { writing.note(name, faults); }});
    if (visited.several) writing.print_summary();
    if (visited.exit != Exit::done) return visited.exit;
    return writing.all_made() ? Exit::done : Exit::input_wrong;
}

}  // namespace

Exit papers_command(const QStringList& words) {
    Options options(
        QStringLiteral("evenfall papers CASE --out FOLDER"),
        QStringLiteral("Writes the papers of a case as PDF. CASE is a case file, - for standard input, "
                       "STORE#reference, a folder of case files, or STORE#pattern with * and ?."));
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
    if (!QDir().mkpath(folder)) {
        print_faults({{"app-cannot-write", folder.toStdString(), {}}}, resources->texts);
        return Exit::input_wrong;
    }
    const PeopleAsked asked{
        options.rest().at(0).toStdString(),
        options.store_access(),
        {options.of(QStringLiteral("agent")).toStdString(), options.has(QStringLiteral("unprinted"))}};
    const PaperBatch batch{
        *named,
        {*size, options.has(QStringLiteral("large-print")), options.has(QStringLiteral("name-in-metadata"))},
        language.toStdString(),
        options.has(QStringLiteral("replace"))};
    Writing writing(batch, language.isEmpty(), names.isEmpty(), folder, names_several(asked.named),
                    resources->texts);
    return write_for(asked, *resources, writing);
}

}  // namespace evenfall::app
