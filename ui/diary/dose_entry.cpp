// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/dose_entry.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>

#include "controls/form.h"
#include "controls/typed_field.h"
#include "diary/days.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

DoseEntry::DoseEntry(const Texts& texts, const Formulary& formulary, QWidget* parent)
    : QWidget(parent),
      taken_(new QCheckBox(tr("Taken"))),
      at_(new ClockEdit(texts, tr("Taken at"))),
      drug_(make_choice(tr("Agent"), {})),
      amount_(new DoseEdit(texts, tr("Amount taken"))),
      why_(make_choice(tr("Why it was taken"), {})) {
    for (const auto& [name, drug] : formulary.drugs) drug_->addItem(to_text(name));
    for (const auto& [why, said] : Words<TakenWhy>::table)
        why_->addItem(why == TakenWhy::unsaid ? tr("Why: not said")
                                              : tr("Why: %1").arg(to_text(std::string(said))));
    at_->set_required(true);
    amount_->set_required(true);
    at_->setFixedWidth(84);
    drug_->setMinimumWidth(130);
    amount_->setMinimumWidth(120);
    why_->setMinimumWidth(140);
    taken_->setChecked(true);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace2);
    row->addWidget(taken_, 0, Qt::AlignTop);
    row->addWidget(at_, 0, Qt::AlignTop);
    row->addWidget(drug_, 0, Qt::AlignTop);
    row->addWidget(amount_, 1, Qt::AlignTop);
    row->addWidget(why_, 0, Qt::AlignTop);
    setFocusProxy(taken_);
    connect(at_, &TypedField::edited, this, &DoseEntry::rename);
    connect(amount_, &TypedField::edited, this, &DoseEntry::rename);
    rename();
}

void DoseEntry::plan(const DoseTime& dose, bool taken) {
    planned_ = dose;
    at_->set_time(dose.at);
    set_drug(dose.drug);
    amount_->set_dose(dose.amount);
    why_->setCurrentIndex(static_cast<int>(TakenWhy::as_planned));
    taken_->setChecked(taken);
    rename();
}

void DoseEntry::set_drug(const std::string& drug) {
    if (drug_->findText(to_text(drug)) < 0) drug_->addItem(to_text(drug));
    drug_->setCurrentText(to_text(drug));
}

void DoseEntry::rename() {
    taken_->setAccessibleName(
        tr("Taken: %1 %2 %3 mg").arg(at_->typed(), drug_->currentText(), amount_->typed()));
}

bool DoseEntry::is_taken() const {
    return taken_->isChecked();
}

bool DoseEntry::check() {
    return !is_taken() || (at_->check() & amount_->check());
}

Intake DoseEntry::intake(Day day, ClockTime begins) const {
    Intake entry{time_in_diary_day(day, *at_->time(), begins),
                 to_utf8(drug_->currentText()),
                 *amount_->dose(),
                 static_cast<TakenWhy>(why_->currentIndex()),
                 {}};
    const bool as_meant = planned_ && *at_->time() == planned_->at && entry.amount == planned_->amount &&
                          entry.drug == planned_->drug;
    if (!as_meant && entry.why == TakenWhy::as_planned) entry.why = TakenWhy::unsaid;
    return entry;
}

}  // namespace evenfall::ui
