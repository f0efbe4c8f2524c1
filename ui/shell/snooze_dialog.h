// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"

class QLineEdit;

namespace evenfall::ui {

class DayEdit;

/// Puts a reason of the caseload off until a day, with a reason that goes on the record.
class SnoozeDialog : public QuietDialog {
    Q_OBJECT
  public:
    SnoozeDialog(Workbench& workbench, const Flag& flag, QWidget* parent);
    void accept() override;

  private:
    Workbench& workbench_;
    std::string rule_;
    DayEdit* until_;
    QLineEdit* reason_;
};

}  // namespace evenfall::ui
