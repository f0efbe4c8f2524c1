// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QWidget>

#include "model/person.h"
#include "shell/workbench.h"

namespace evenfall::ui {

class FaultPanel;
class WholeEdit;

/// What papers name of the clinic, and what each fill covers.
class ClinicForm : public QWidget {
    Q_OBJECT
  public:
    explicit ClinicForm(Workbench& workbench, QWidget* parent = nullptr);

  private:
    Clinic typed() const;
    void save();

    Workbench& workbench_;
    QLineEdit* name_;
    QLineEdit* phone_;
    QLineEdit* after_hours_;
    QLineEdit* emergency_;
    QLineEdit* crisis_;
    WholeEdit* days_per_fill_;
    WholeEdit* reserve_days_;
    FaultPanel* faults_;
};

}  // namespace evenfall::ui
