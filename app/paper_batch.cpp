// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_batch.h"

#include <QDir>

#include "papers/write_pdf.h"

namespace evenfall::app {
namespace {

Fault at_paper(Fault fault, Paper paper) {
    fault.place = word(paper) + (fault.place.empty() ? "" : ": " + fault.place);
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

Faults write_papers(const papers::PaperSource& source, const PaperBatch& batch, const QString& folder,
                    const QString& prefix, TextShelf& shelf, std::vector<Paper>& written) {
    Faults faults;
    const auto texts = shelf.in(batch.language);
    if (!texts) return texts.faults();
    for (const Paper paper : batch.papers) {
        auto document = papers::make_paper(paper, source, **texts);
        if (!document) {
            for (const Fault& fault : document.faults()) faults.push_back(at_paper(fault, paper));
            continue;
        }
        const QString file =
            QDir(folder).filePath(prefix + QString::fromStdString(word(paper)) + QStringLiteral(".pdf"));
        const auto done = ui::write_pdf(*document, batch.options, file, batch.replace);
        if (done) {
            written.push_back(paper);
            continue;
        }
        for (const Fault& fault : done.faults()) faults.push_back(at_paper(fault, paper));
    }
    return faults;
}

}  // namespace evenfall::app
