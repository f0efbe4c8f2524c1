// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "controls/messages.h"
#include "planning/by_hand.h"

namespace evenfall::ui {

class DayEdit;
class DoseEdit;
class Label;
class TypedField;
class WholeEdit;

/// A step set by hand: its day, its length, and the dose of each time of the day, or the day's amount. What
/// the rules say of it, and the pieces that make it, follow while one types.
class StepDialog : public QuietDialog {
    Q_OBJECT
  public:
    /// `keep` steps of the plan come before it; `shown` is what stands in the fields.
    StepDialog(Workbench& workbench, Plan plan, int keep, const Regimen& shown, const QString& title,
               const QString& lead, QWidget* parent = nullptr);

    void add_note(const Flag& flag);
    /// Only an amount above this may be committed: going back up.
    void wants_more_than(Dose least) { above_ = least; }
    void offer(const QString& commit);
    void set_day(Day day);
    void set_length(std::optional<int> days);
    /// What was set; empty while a field cannot be read or the rules refuse it.
    std::optional<HandStep> step() const;

  private:
    struct DoseField {
        DoseTime dose;
        DoseEdit* edit;
    };
    void make_fields(const Regimen& shown);
    std::optional<HandStep> read() const;
    void judge();
    void show_faults(const Faults& faults);
    void show_step(const Step& step);

    Workbench& workbench_;
    Plan plan_;
    int keep_;
    std::vector<DoseTime> others_;  ///< doses of other agents: as they are
    std::vector<DoseField> doses_;
    DayEdit* starts_;
    WholeEdit* length_;
    Label* total_;
    Label* says_;
    QVBoxLayout* notes_;
    QVBoxLayout* flags_;
    QPushButton* commit_ = nullptr;
    std::optional<Dose> above_;
    bool fits_ = false;
};

}  // namespace evenfall::ui
