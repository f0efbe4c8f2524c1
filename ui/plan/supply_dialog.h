// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "planning/supply.h"

namespace evenfall::ui {

/// The fills that the signed steps and those to sign need: what to dispense when, what stays over, and until
/// when each fill covers holding the dose.
class SupplyDialog : public QuietDialog {
    Q_OBJECT
  public:
    /// The first `steps` of the plan are supplied.
    SupplyDialog(Workbench& workbench, const Plan& plan, int steps, const PatientRecord& record,
                 QWidget* parent = nullptr);

  private:
    void add_fill(const Workbench& workbench, const Fill& fill);
};

}  // namespace evenfall::ui
