// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/card.h"
#include "record/changes.h"
#include "stabilization/check.h"

class QPushButton;

namespace evenfall::ui {

class Workbench;

/// Pieces drawn to shape, with the same in words for a screen reader.
class PiecesView : public QWidget {
    Q_OBJECT
  public:
    explicit PiecesView(std::vector<Piece> pieces, QWidget* parent = nullptr);
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<Piece> pieces_;
};

/// One proposal: the new day with its pieces, today's and the proposed level, what it rests on, and "Accept".
class ProposalCard : public Card {
    Q_OBJECT
  public:
    ProposalCard(const Workbench& workbench, const Proposal& proposal, const QString& not_allowed,
                 QWidget* parent = nullptr);
    QPushButton* accept() const { return accept_; }

  signals:
    void accepted();

  private:
    void add_doses(const std::vector<PlannedDose>& doses);
    void add_levels(const Workbench& workbench, const Proposal& proposal);
    void add_stages(const std::vector<ProposedStage>& stages);
    QPushButton* accept_;
};

/// What accepting a proposal writes: the new regimen from a day on (each stage of a crossover from its own
/// day), a note that asks for a new diary week, and a call on the day `contact`, where one is to be planned.
std::vector<Change> changes_of(const Proposal& proposal, Use use, Day from, const QString& note,
                               std::optional<Day> contact);

}  // namespace evenfall::ui
