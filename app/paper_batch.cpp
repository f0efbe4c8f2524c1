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

Faults write_papers(const papers::PaperSource& source, const PaperBatch& batch, const QString& folder,
                    const QString& prefix) {
    Faults faults;
    auto texts = Texts::load(resources_folder(), batch.language);
    if (!texts) return texts.faults();
    for (const Paper paper : batch.papers) {
        auto document = papers::make_paper(paper, source, *texts);
        if (!document) {
            for (const Fault& fault : document.faults()) faults.push_back(at_paper(fault, paper));
            continue;
        }
        const QString file =
            QDir(folder).filePath(prefix + QString::fromStdString(word(paper)) + QStringLiteral(".pdf"));
        const auto written = ui::write_pdf(*document, batch.options, file, batch.replace);
        if (!written)
            for (const Fault& fault : written.faults()) faults.push_back(at_paper(fault, paper));
    }
    return faults;
}

}  // namespace evenfall::app
