// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/card.h"
#include "course/scene.h"

class QPushButton;

namespace evenfall::ui {

class Label;
class Workbench;

/// The sentence about what is chosen, with "Why?": inputs and origin, and each rule that bit.
class ExplainLine : public Card {
    Q_OBJECT

  public:
    explicit ExplainLine(const Workbench& workbench, QWidget* parent = nullptr);
    /// Null: says how to choose something.
    void explain(const LaneItem* item);
    QString text() const;

  private:
    void open_why();
    const Workbench& workbench_;
    LaneItem item_;
    Label* says_;
    QPushButton* why_;
};

}  // namespace evenfall::ui
