// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "controls/card.h"
#include "model/person.h"
#include "rules/texts.h"

class QLineEdit;
class QPushButton;

namespace evenfall::ui {

class Label;

/// In the place of a paper: what is missing before it can be made, with fields for what can be entered here.
/// Nothing has gone wrong, so nothing is red.
class MissingPanel : public Card {
    Q_OBJECT

  public:
    explicit MissingPanel(QWidget* parent = nullptr);

    /// Shows what is missing. The clinic's numbers stand in the fields as far as they are known.
    void show_missing(const Faults& faults, const Texts& texts, const Clinic& clinic);

    /// Writes the numbers that were typed; the page sets it.
    std::function<void(const Clinic&)> save_numbers;
    /// Goes to the plan; the page sets it.
    std::function<void()> open_plan;

    /// The fields and buttons, for the window's tests.
    QLineEdit* clinic_name() const { return name_; }
    QLineEdit* emergency() const { return emergency_; }
    QLineEdit* crisis() const { return crisis_; }
    QLineEdit* phone() const { return phone_; }
    QLineEdit* after_hours() const { return after_hours_; }
    QPushButton* save_button() const { return save_; }
    QPushButton* plan_button() const { return plan_; }

  private:
    QWidget* make_numbers();
    Clinic typed() const;

    Clinic clinic_;
    Label* heading_;
    QVBoxLayout* lines_;
    QWidget* numbers_;
    QLineEdit* name_ = nullptr;
    QLineEdit* phone_ = nullptr;
    QLineEdit* after_hours_ = nullptr;
    QLineEdit* emergency_ = nullptr;
    QLineEdit* crisis_ = nullptr;
    QPushButton* save_ = nullptr;
    QPushButton* plan_;
};

}  // namespace evenfall::ui
