// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "formulary/formulary.h"
#include "model/diary.h"
#include "model/regimen.h"
#include "rules/texts.h"

class QCheckBox;
class QComboBox;

namespace evenfall::ui {

class ClockEdit;
class DoseEdit;

/// One dose of the day that is entered: whether it was taken, when, of what, how much, and why.
class DoseEntry : public QWidget {
    Q_OBJECT

  public:
    DoseEntry(const Texts& texts, const Formulary& formulary, QWidget* parent = nullptr);
    /// Fills in what the regimen intends.
    void plan(const DoseTime& dose, bool taken);
    void set_drug(const std::string& drug);

    bool is_taken() const;
    bool check();
    /// REQUIRES check(). The reason "as planned" stands only while time and amount are the intended ones.
    Intake intake(Day day, ClockTime begins) const;

    QCheckBox* taken() const { return taken_; }
    ClockEdit* at() const { return at_; }
    DoseEdit* amount() const { return amount_; }
    QComboBox* why() const { return why_; }

  private:
    void rename();
    QCheckBox* taken_;
    ClockEdit* at_;
    QComboBox* drug_;
    DoseEdit* amount_;
    QComboBox* why_;
    std::optional<DoseTime> planned_;
};

}  // namespace evenfall::ui
