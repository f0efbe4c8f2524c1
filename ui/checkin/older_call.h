// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/card.h"

class QPushButton;

namespace evenfall::ui {

class Label;

/// Asks what becomes of a call that was begun on an earlier day and never saved. Until it is answered the
/// talk takes no answers, since their day is not known.
class OlderCallCard : public Card {
    Q_OBJECT
  public:
    explicit OlderCallCard(QWidget* parent = nullptr);
    /// `when` with the time, `day` alone.
    void tell(const QString& when, const QString& day);
    QPushButton* first() const { return go_on_; }

  signals:
    void go_on();     ///< dated today
    void keep_day();  ///< it was finished then
    void begin_anew();

  private:
    Label* title_;
    Label* words_;
    QPushButton *go_on_, *keep_day_, *anew_;
};

}  // namespace evenfall::ui
