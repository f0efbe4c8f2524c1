// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QPushButton>

#include "model/plan.h"
#include "theme/tones.h"

namespace evenfall::ui {

class Workbench;

/// Everything that stands behind a flag: nothing is shown that cannot be explained.
struct Explanation {
    QString says;                                     ///< the rule's sentence with its values
    std::vector<std::pair<QString, QString>> inputs;  ///< the values by name
    QString rule;                                     ///< id
    QString threshold;                                ///< the rule's values in force
    QString source;
    QString how;  ///< "looked up", "from memory", "clinic's choice"
};
Explanation explain(const Workbench& workbench, const Flag& flag);

/// A light panel beside the thing that opened it; Escape closes it, and focus goes back.
class Popover : public QFrame {
    Q_OBJECT
  public:
    explicit Popover(QWidget* opener);
    /// Shows it beneath the opener, inside the screen.
    void open();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    QWidget* opener_;
};

/// Opens everything that stands behind a flag, beside `opener`.
void show_explanation(const Workbench& workbench, const Flag& flag, QWidget* opener);

/// "Why?": opens inputs, rule, threshold and source.
class WhyButton : public QPushButton {
    Q_OBJECT
  public:
    WhyButton(const Workbench& workbench, Flag flag, QWidget* parent = nullptr);
    const Flag& flag() const { return flag_; }

  private:
    const Workbench& workbench_;
    Flag flag_;
};

/// How heavily a flag weighs on the eye: a shape and a word each.
enum class Weight { danger, presses, note };

/// A flag as a line: shape, word, sentence and "Why?".
class FlagRow : public QWidget {
    Q_OBJECT
  public:
    FlagRow(const Workbench& workbench, const Flag& flag, Weight weight, QWidget* parent = nullptr);
};

/// A drawing of the shape of a weight: a flag, a ring with a hand, a dot.
void draw_weight(QPainter& painter, const QRectF& where, Weight weight);

}  // namespace evenfall::ui
