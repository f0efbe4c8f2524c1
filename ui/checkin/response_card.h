// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/card.h"

namespace evenfall::ui {

class Workbench;

/// How the last step is borne and what the rules suggest: each suggestion with its reasons and sources, the
/// ways open to a prescriber with their costs, and what the steps so far teach, with its interval.
class ResponseCard : public Card {
    Q_OBJECT
  public:
    explicit ResponseCard(Workbench& workbench, QWidget* parent = nullptr);
    void refresh();

  private:
    Workbench& workbench_;
};

}  // namespace evenfall::ui
