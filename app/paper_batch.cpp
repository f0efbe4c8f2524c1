// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_batch.h"

#include <QDir>

#include "papers/write_pdf.h"
#include "planning/supply.h"

namespace evenfall::app {
namespace {

using std::chrono::days;

/// The fills that the committed steps need, from the day of issue to the last committed day.
std::optional<Supply> supply_of(const PatientRecord& record, const papers::PaperSource& source,
                                const Desk& desk) {
    if (!source.plan) return std::nullopt;
    const auto last = papers::valid_through(source);
    if (!last) return std::nullopt;
    SupplyInput input;
    input.from = source.as_of;
    input.to = *last + days(1);
    input.doses = doses_of(*source.plan, input.from, PieceWeights::from(desk.rules()));
    input.days_per_fill = source.clinic.days_per_fill;
    input.reserve_days = source.clinic.reserve_days;
    if (!record.supply.empty()) input.on_hand = record.supply.back().value.on_hand;
    auto made = supply_for(input);
    if (!made) return std::nullopt;
    return std::move(*made);
}

Fault at_paper(Fault fault, Paper paper) {
    fault.place = word(paper) + (fault.place.empty() ? "" : ": " + fault.place);
    return fault;
}

}  // namespace

papers::PaperSource paper_source(const PatientRecord& record, const Desk& desk, Day as_of) {
    papers::PaperSource source =
        papers::source_from_record(record, desk.clinic(), {desk.worker().name, desk.worker().licence},
                                   desk.formulary(), desk.rules(), as_of);
    source.supply = supply_of(record, source, desk);
    return source;
}

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
