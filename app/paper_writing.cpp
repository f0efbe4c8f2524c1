// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_writing.h"

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

int Writing::write(const PaperPerson& person) {
    const QString prefix = several_ ? file_name_of(person.name) + QLatin1Char('-') : QString();
    if (several_ && !used_.insert(prefix).second) {
        refuse(person.name, {{"app-name-used", prefix.toStdString(), {}}});
        return 0;
    }
    std::vector<Paper> written;
    const Faults faults = write_papers(person.source, batch_of(person), folder_, prefix, shelf_, written);
    ++people_;
    written_ += static_cast<int>(written.size());
    refuse(person.name, faults);
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
    print_faults_in(name, faults, texts_);
    for (const Fault& fault : faults) not_made_.push_back({{"of", name}, {"what", texts_.text(fault)}});
}

void Writing::print_summary() const {
    std::cout
        << nlohmann::ordered_json{{"people", people_}, {"papers", written_}, {"not_made", not_made_}}.dump(2)
        << std::endl;
}

Exit Writing::exit() const {
    if (!all_noted_) return Exit::store_refuses;
    return not_made_.empty() ? Exit::done : Exit::input_wrong;
}

}  // namespace evenfall::app
