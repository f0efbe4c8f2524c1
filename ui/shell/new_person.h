// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"

class QComboBox;

namespace evenfall::ui {

class DayEdit;

/// Asks for what a new person begins with, and adds them.
class NewPersonDialog : public QuietDialog {
    Q_OBJECT
  public:
    explicit NewPersonDialog(Workbench& workbench, QWidget* parent = nullptr);
    /// Adds the person and selects them; shows faults at their fields and stays open where there are any.
    void accept() override;

  private:
    void show_faults(const Faults& faults);
    Workbench& workbench_;
    QLineEdit* name_;
    QLineEdit* reference_;
    DayEdit* born_;
    QComboBox* language_;
    FaultPanel* faults_;
};

}  // namespace evenfall::ui
