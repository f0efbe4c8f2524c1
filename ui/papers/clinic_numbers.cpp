// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/clinic_numbers.h"

#include <QLineEdit>

#include "controls/form.h"

namespace evenfall::ui {
namespace {

QLineEdit* add_line(QVBoxLayout& column, const QString& name, const std::string& value) {
    QLineEdit* line = make_line(name);
    line->setText(QString::fromStdString(value));
    add_field(column, name, line);
    return line;
}

std::string typed(const QLineEdit* line) {
    return line->text().trimmed().toStdString();
}

}  // namespace

ClinicNumbersDialog::ClinicNumbersDialog(const Clinic& clinic, QWidget* parent)
    : QuietDialog(tr("The clinic, as its papers name it"),
                  tr("Patients call these numbers. They are printed exactly as they stand here."), parent),
      clinic_(clinic),
      name_(add_line(*body(), tr("Name of the clinic"), clinic.name)),
      phone_(add_line(*body(), tr("Telephone in office hours"), clinic.phone)),
      after_hours_(add_line(*body(), tr("Telephone at all other hours"), clinic.after_hours)),
      emergency_(add_line(*body(), tr("Emergency number"), clinic.emergency_number)),
      crisis_(add_line(*body(), tr("Crisis number, thoughts of suicide"), clinic.crisis_number)) {
    set_buttons(tr("Save the numbers"), tr("Leave"));
}

Clinic ClinicNumbersDialog::clinic() const {
    Clinic changed = clinic_;
    changed.name = typed(name_);
    changed.phone = typed(phone_);
    changed.after_hours = typed(after_hours_);
    changed.emergency_number = typed(emergency_);
    changed.crisis_number = typed(crisis_);
    return changed;
}

}  // namespace evenfall::ui
