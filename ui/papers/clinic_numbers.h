// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "model/person.h"

class QLineEdit;

namespace evenfall::ui {

class Workbench;

/// Asks for what every paper names of the clinic: its name and the four telephone numbers. None is suggested.
class ClinicNumbersDialog : public QuietDialog {
    Q_OBJECT

  public:
    explicit ClinicNumbersDialog(const Clinic& clinic, QWidget* parent = nullptr);
    Clinic clinic() const;

  private:
    Clinic clinic_;
    QLineEdit* name_;
    QLineEdit* phone_;
    QLineEdit* after_hours_;
    QLineEdit* emergency_;
    QLineEdit* crisis_;
};

}  // namespace evenfall::ui
