// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/card.h"
#include "formulary/formulary.h"
#include "planning/crossover.h"

class QPushButton;

namespace evenfall::ui {

/// One way across: how far the modelled day average dips and overshoots, each stage with its doses and its
/// diazepam (least, usual, most), and the button that chooses it.
class CrossoverCard : public Card {
    Q_OBJECT
  public:
    CrossoverCard(const CrossoverPlan& way, int number, const Formulary& formulary, const Rules& rules,
                  QWidget* parent = nullptr);
    QPushButton* choose() const { return choose_; }

  private:
    QPushButton* choose_;
};

/// All agents of a stage as diazepam; zeros where one has no equivalence.
DiazepamRange as_diazepam(const CrossoverStage& stage, const Formulary& formulary);

}  // namespace evenfall::ui
