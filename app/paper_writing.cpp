// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_writing.h"

#include <QFileInfo>
#include <algorithm>
#include <iostream>

#include "papers/write_pdf.h"

namespace evenfall::app {

using ui::file_name_of;

Writing::Writing(PaperBatch batch, QString folder, bool several, const Texts& texts)
    : batch_(std::move(batch)), folder_(std::move(folder)), several_(several), texts_(texts) {
}

PaperBatch Writing::batch_of(const PaperPerson& person) const {
    PaperBatch batch = batch_;
    if (batch.language.empty()) batch.language = person.language;
    if (!batch.papers.empty()) return batch;
    for (const auto& [paper, name] : Words<Paper>::table)
        if (paper != Paper::report || person.source.judged) batch.papers.push_back(paper);
    return batch;
}

std::vector<Paper> Writing::papers_asked() const {
    std::vector<Paper> papers = batch_.papers;
    if (!papers.empty()) return papers;
    for (const auto& [paper, name] : Words<Paper>::table)
        if (paper != Paper::report) papers.push_back(paper);
    return papers;
}

QString Writing::prefix_of(const std::string& name) const {
    return several_ ? file_name_of(name) + QLatin1Char('-') : QString();
}

int Writing::write(const PaperPerson& person) {
    const QString prefix = prefix_of(person.name);
    const PaperBatch batch = batch_of(person);
    if (several_ && !used_.insert(prefix).second) {
        const Faults faults = faults_in(person.name, {{"app-name-used", prefix.toStdString(), {}}});
        print_faults(faults, texts_);
        account(person.name, batch.papers, {}, faults);
        return 0;
    }
    const auto outcome = write_papers(person.source, batch, folder_, prefix, shelf_);
    const auto written = outcome ? outcome->written : std::vector<Paper>();
    const Faults faults = faults_in(
        person.name, outcome ? faults_of(outcome->refused, person.of_case, texts_) : outcome.faults());
    print_faults(faults, texts_);
    account(person.name, batch.papers, written, faults);
    name_older_files(prefix, written, faults);
    note_issued(person, written);
    return static_cast<int>(written.size());
}

void Writing::note_issued(const PaperPerson& person, const std::vector<Paper>& written) {
    if (!person.note_issued) return;
    for (const Paper paper : written) {
        const auto noted = person.note_issued(paper);
        if (noted) continue;
        all_noted_ = false;
        print_faults_in(person.name, {{"app-not-noted", word(paper), {}}}, texts_);
        print_faults_in(person.name, noted.faults(), texts_);
    }
}

void Writing::refuse(const std::string& name, const Faults& faults) {
    for (const Fault& fault : faults)
        if (said_.insert(texts_.text(fault)).second) print_faults({fault}, texts_);
    account(name, papers_asked(), {}, faults);
    // Another of that name may have got theirs in this run.
    if (!used_.contains(prefix_of(name))) name_older_files(prefix_of(name), {}, {});
}

void Writing::account(const std::string& name, const std::vector<Paper>& asked,
                      const std::vector<Paper>& written, const Faults& faults) {
    ++people_asked_;
    if (!written.empty()) ++people_;
    papers_asked_ += asked.size();
    written_ += written.size();
    if (faults.empty()) return;
    nlohmann::ordered_json entry{{"of", name}, {"made", written.size()}};
    for (const Paper paper : asked)
        if (std::ranges::count(written, paper) == 0) entry["papers"].push_back(word(paper));
    for (const Fault& fault : faults)
        entry["faults"].push_back(
            {{"id", fault.id}, {"place", fault.place}, {"what", texts_.text(fault.id, fault.args)}});
    not_made_.push_back(std::move(entry));
}

void Writing::name_older_files(const QString& prefix, const std::vector<Paper>& written, const Faults& told) {
    for (const auto& [paper, name] : Words<Paper>::table) {
        const bool asked = batch_.papers.empty() || std::ranges::count(batch_.papers, paper) > 0;
        const QString file = paper_file(folder_, prefix, paper);
        if (!asked || std::ranges::count(written, paper) > 0 || !QFileInfo::exists(file)) continue;
        const std::string path = file.toStdString();
        if (!older_.insert(path).second) continue;
        const bool said = std::ranges::any_of(told, [&](const Fault& fault) {
            return fault.id == "app-paper-exists" && fault.place.ends_with(path);
        });
        if (!said) print_faults({{"app-older-stays", path, {}}}, texts_);
    }
}

void Writing::print_summary() const {
    std::cout << nlohmann::ordered_json{{"people_asked", people_asked_}, {"people", people_},
                                        {"papers_asked", papers_asked_}, {"papers", written_},
                                        {"not_made", not_made_},         {"passed_over", passed_over_},
                                        {"older_not_replaced", older_}}
                     .dump(2)
              << std::endl;
}

Exit Writing::exit() const {
    if (!all_noted_) return Exit::store_refuses;
    return not_made_.empty() ? Exit::done : Exit::input_wrong;
}

}  // namespace evenfall::app
