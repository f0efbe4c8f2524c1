// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "plan/cost_words.h"
#include "planning/supply.h"

namespace evenfall::ui {

class DayEdit;
class WholeEdit;

/// The fills that the signed steps and those to sign need, for any range of days: what to dispense when and
/// what it costs, what stays over, until when each fill covers holding the dose, and what is returned at the
/// end.
class SupplyDialog : public QuietDialog {
    Q_OBJECT
  public:
    /// The first `steps` of the plan are supplied; after the last of them its dose goes on.
    SupplyDialog(Workbench& workbench, const Plan& plan, int steps, const PatientRecord& record,
                 QWidget* parent = nullptr);

  private:
    void make_fields(Day last);
    void show_supply();
    void add_line(const QString& text, bool presses = false);
    void add_fill(const Fill& fill);
    void add_end(const Supply& supply);

    Workbench& workbench_;
    Plan firm_;
    const PatientRecord record_;  // a copy: the desk may let go of its own while this is open
    PriceList prices_;
    DayEdit* from_;
    DayEdit* last_;
    WholeEdit* days_;
    QVBoxLayout* list_;
};

}  // namespace evenfall::ui
