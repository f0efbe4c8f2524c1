// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/clinic_form.h"

#include <QPushButton>
#include <QVBoxLayout>

#include "clinic/clinic_change.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/messages.h"
#include "controls/typed_field.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kMostDays = 366;

QLineEdit* line(const QString& name, const std::string& value) {
    QLineEdit* made = make_line(name);
    made->setText(to_text(value));
    return made;
}

std::string words(const QLineEdit* line) {
    return to_utf8(line->text().trimmed());
}

}  // namespace

ClinicForm::ClinicForm(Workbench& workbench, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      days_per_fill_(
          new WholeEdit(workbench.texts(), tr("Days that a fill covers"), 1, kMostDays, tr("days"))),
      reserve_days_(
          new WholeEdit(workbench.texts(), tr("Reserve in each fill, for a hold"), 0, kMostDays, tr("days"))),
      faults_(new FaultPanel) {
    const Clinic clinic = workbench_.desk().clinic();
    name_ = line(tr("Name of the clinic"), clinic.name);
    phone_ = line(tr("Telephone in office hours"), clinic.phone);
    after_hours_ = line(tr("Telephone at all other hours"), clinic.after_hours);
    emergency_ = line(tr("Emergency number"), clinic.emergency_number);
    crisis_ = line(tr("Crisis number, thoughts of suicide"), clinic.crisis_number);
    days_per_fill_->set_number(clinic.days_per_fill);
    reserve_days_->set_number(clinic.reserve_days);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, kSpace3, 0);
    auto* card = new Card;
    column->addWidget(card);
    column->addStretch();
    card->body()->addWidget(new SectionHeader(
        tr("Name, numbers and fills"),
        tr("Patients call these numbers. They are printed exactly as they stand here; none is suggested.")));
    for (QLineEdit* each : {name_, phone_, after_hours_, emergency_, crisis_})
        add_field(*card->body(), each->accessibleName(), each);
    add_field(*card->body(), tr("Days that a fill covers"), days_per_fill_,
              tr("The pharmacy summary counts each fill for so long."));
    add_field(*card->body(), tr("Reserve in each fill, for a hold"), reserve_days_,
              tr("So that staying at today's dose never ends in running out."));
    card->body()->addWidget(faults_);
    auto* keep = make_button(tr("Save the clinic"), ButtonKind::primary);
    card->body()->addWidget(keep, 0, Qt::AlignLeft);
    set_reason_disabled(keep, why_not_changed_here(workbench_));
    connect(keep, &QPushButton::clicked, this, &ClinicForm::save);
}

Clinic ClinicForm::typed() const {
    Clinic clinic = workbench_.desk().clinic();
    clinic.name = words(name_);
    clinic.phone = words(phone_);
    clinic.after_hours = words(after_hours_);
    clinic.emergency_number = words(emergency_);
    clinic.crisis_number = words(crisis_);
    clinic.days_per_fill = days_per_fill_->number().value_or(clinic.days_per_fill);
    clinic.reserve_days = reserve_days_->number().value_or(clinic.reserve_days);
    return clinic;
}

void ClinicForm::save() {
    faults_->clear();
    for (WholeEdit* days : {days_per_fill_, reserve_days_}) {
        days->set_required(true);
        if (!days->check()) return days->setFocus();
    }
    write_for_clinic(workbench_, {typed()}, *faults_);
}

}  // namespace evenfall::ui
