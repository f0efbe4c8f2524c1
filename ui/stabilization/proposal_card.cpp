// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/proposal_card.h"

#include <QGridLayout>
#include <QPainter>
#include <QPushButton>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/label.h"
#include "controls/why.h"
#include "drawing/pieces.h"
#include "shell/workbench.h"
#include "stabilization/check_words.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

const PieceLayout kLayout{18, 4, 4, 220};

QString dose_words(const PlannedDose& dose) {
    return QObject::tr("%1  %2 %3").arg(text_of(dose.at), to_text(dose.drug), text_of(dose.amount));
}

}  // namespace

PiecesView::PiecesView(std::vector<Piece> pieces, QWidget* parent)
    : QWidget(parent), pieces_(std::move(pieces)) {
    setAccessibleName(pieces_text(pieces_));
    setToolTip(pieces_text(pieces_));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

QSize PiecesView::sizeHint() const {
    return (pieces_size(pieces_, kLayout) + QSizeF(2, 2)).toSize();
}

void PiecesView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    paint_pieces(painter, {1, 1}, pieces_, kLayout,
                 {tone(Tone::ink), tone(Tone::soft_ink), tone(Tone::card)});
}

ProposalCard::ProposalCard(const Workbench& workbench, const Proposal& proposal, const QString& not_allowed,
                           QWidget* parent)
    : Card(parent), accept_(make_button(tr("Accept"), ButtonKind::primary)) {
    const Texts& texts = workbench.texts();
    const bool spacing = proposal.kind == ProposalKind::spacing;
    const QString title = to_text(texts.text(spacing ? "stabilization-proposal-spacing-title"
                                                     : "stabilization-proposal-crossover-title"));
    body()->addWidget((new Label(title, Type::strong, Tone::planned))->wrapped());
    if (proposal.stages.empty())
        add_doses(proposal.doses);
    else
        add_stages(proposal.stages);
    add_levels(workbench, proposal);
    for (const Flag& flag : proposal.says)
        body()->addWidget(
            new FlagRow(workbench, flag, flag.rule == "crossover-against" ? Weight::presses : Weight::note));
    body()->addStretch();
    auto* consequence =
        new Label(to_text(texts.text("stabilization-proposal-accept")), Type::note, Tone::soft_ink);
    body()->addWidget(consequence->wrapped());
    body()->addWidget(accept_, 0, Qt::AlignLeft);
    accept_->setAccessibleName(tr("Accept: %1, %2").arg(title, to_text(proposal.drug)));
    set_reason_disabled(accept_, not_allowed);
    connect(accept_, &QPushButton::clicked, this, &ProposalCard::accepted);
}

void ProposalCard::add_doses(const std::vector<PlannedDose>& doses) {
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace3);
    grid->setVerticalSpacing(kSpace1);
    for (const PlannedDose& dose : doses) {
        const int row = grid->rowCount();
        grid->addWidget(new Label(dose_words(dose)), row, 0, Qt::AlignLeft | Qt::AlignVCenter);
        if (!dose.pieces.empty()) {
            grid->addWidget(new PiecesView(dose.pieces), row, 1, Qt::AlignLeft | Qt::AlignVCenter);
            grid->addWidget((new Label(pieces_text(dose.pieces), Type::note, Tone::soft_ink))->wrapped(),
                            row + 1, 0, 1, 2);
        }
    }
    grid->setColumnStretch(1, 1);
    body()->addLayout(grid);
}

void ProposalCard::add_stages(const std::vector<ProposedStage>& stages) {
    int number = 1;
    for (const ProposedStage& stage : stages) {
        const QString when = stage.starts_after_days == 0
                                 ? tr("Stage %1, from the first day").arg(number)
                                 : tr("Stage %1, %2 days later").arg(number).arg(stage.starts_after_days);
        ++number;
        auto* head =
            new Label(tr("%1; modelled average at its end %2 of today's").arg(when, percent(stage.average)),
                      Type::note, Tone::soft_ink);
        body()->addWidget(head->wrapped());
        add_doses(stage.doses);
    }
}

void ProposalCard::add_levels(const Workbench& workbench, const Proposal& proposal) {
    const Texts& texts = workbench.texts();
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(kSpace4);
    grid->setVerticalSpacing(2);
    const auto put = [&](int row, int column, const QString& text, Tone colour, Type size = Type::text) {
        auto* label = new Label(text, size, colour);
        if (column == 0) return grid->addWidget(label->wrapped(), row, 0);
        grid->addWidget(label, row, column, Qt::AlignRight);
    };
    put(0, 0, tr("Modelled level"), Tone::level, Type::note);
    put(0, 1, tr("today"), Tone::soft_ink, Type::note);
    put(0, 2, tr("proposed"), Tone::soft_ink, Type::note);
    const auto row = [&](int at, const char* id, const QString& today, const QString& proposed) {
        put(at, 0, to_text(texts.text(id)), Tone::ink, Type::note);
        put(at, 1, today, Tone::ink);
        put(at, 2, proposed, Tone::ink, Type::strong);
    };
    row(1, "stabilization-level-trough", percent(proposal.today.trough), percent(proposal.proposed.trough));
    row(2, "stabilization-level-peak", percent(proposal.today.peak), percent(proposal.proposed.peak));
    row(3, "stabilization-level-fluctuation", share_percent(proposal.today.fluctuation),
        share_percent(proposal.proposed.fluctuation));
    grid->setColumnStretch(0, 1);
    body()->addLayout(grid);
}

std::vector<Change> changes_of(const Proposal& proposal, Use use, Day from, const QString& note,
                               std::optional<Day> contact) {
    using std::chrono::days;
    const auto recorded = [&](Day day, const std::vector<PlannedDose>& doses) {
        RegimenRecorded change{{day, {}}, use};
        for (const PlannedDose& dose : doses)
            change.regimen.regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
        std::ranges::sort(change.regimen.regimen.doses);
        return change;
    };
    std::vector<Change> changes;
    if (proposal.stages.empty()) changes.emplace_back(recorded(from, proposal.doses));
    for (const ProposedStage& stage : proposal.stages)
        changes.emplace_back(recorded(from + days(stage.starts_after_days), stage.doses));
    changes.emplace_back(NoteAdded{to_utf8(note)});
    if (contact) changes.emplace_back(ContactPlanned{*contact, "call"});
    return changes;
}

}  // namespace evenfall::ui
