// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_batch.h"

#include <QDir>
#include <algorithm>

#include "papers/wording.h"
#include "papers/write_pdf.h"

namespace evenfall::app {
namespace {

void add_once(std::vector<std::string>& words, const std::string& word) {
    if (std::ranges::count(words, word) == 0) words.push_back(word);
}

/// The window asks whether to replace a file; here there is an option for it.
Fault at_command(Fault fault) {
    if (fault.id == "paper-file-exists") fault.id = "app-paper-exists";
    return fault;
}

}  // namespace

Result<const Texts*> TextShelf::in(const std::string& language) {
    const auto found = texts_.find(language);
    if (found != texts_.end()) return &found->second;
    auto loaded = Texts::load(resources_folder(), language);
    if (!loaded) return loaded.faults();
    return &texts_.emplace(language, std::move(*loaded)).first->second;
}

QString paper_file(const QString& folder, const QString& prefix, Paper paper) {
    return QDir(folder).filePath(prefix + QString::fromStdString(word(paper)) + QStringLiteral(".pdf"));
}

Result<Outcome> write_papers(const papers::PaperSource& source, const PaperBatch& batch,
                             const QString& folder, const QString& prefix, TextShelf& shelf) {
    const auto texts = shelf.in(batch.language);
    if (!texts) return texts.faults();
    Outcome outcome;
    for (const Paper paper : batch.papers) {
        const auto refuse = [&](const Faults& faults) {
            for (const Fault& fault : faults) outcome.refused.push_back({paper, at_command(fault)});
        };
        const auto document = papers::make_paper(paper, source, **texts);
        if (!document) {
            refuse(document.faults());
            continue;
        }
        const auto done =
            ui::write_pdf(*document, batch.options, paper_file(folder, prefix, paper), batch.replace);
        if (done)
            outcome.written.push_back(paper);
        else
            refuse(done.faults());
    }
    return outcome;
}

Faults faults_of(const std::vector<Refusal>& refused, bool of_case, const Texts& texts) {
    using papers::joined;
    Faults faults;
    std::vector<std::string> papers, fields, numbers;
    const std::string clinic = "clinic.";
    for (const auto& [paper, fault] : refused) {
        if (fault.id != "paper-number-missing") {
            faults.push_back({fault.id, joined({word(paper), fault.place}, ": "), fault.args});
            continue;
        }
        add_once(papers, word(paper));
        add_once(fields, fault.place);
        add_once(numbers, texts.text("paper-number-" + fault.place.substr(clinic.size())));
    }
    if (!fields.empty())
        faults.insert(faults.begin(),
                      Fault{of_case ? "app-case-numbers" : "app-clinic-numbers",
                            joined({joined(papers, ", "), joined(fields, ", ")}, ": "),
                            {{"fields", joined(fields, ", ")}, {"numbers", joined(numbers, ", ")}}});
    return faults;
}

}  // namespace evenfall::app
