// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/step_dialog.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/clear_layout.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "controls/why.h"
#include "course/day_words.h"
#include "drawing/pieces.h"
#include "shell/workbench.h"

namespace evenfall::ui {

namespace {

constexpr int kMostDays = 365;
constexpr int kWidth = 580;  // a day with its weekday and a length stand beside each other

}  // namespace

StepDialog::StepDialog(Workbench& workbench, Plan plan, int keep, const Regimen& shown, const QString& title,
                       const QString& lead, QWidget* parent)
    : QuietDialog(title, lead, parent),
      workbench_(workbench),
      plan_(std::move(plan)),
      keep_(keep),
      starts_(new DayEdit(workbench.texts(), tr("Begins on"))),
      length_(new WholeEdit(workbench.texts(), tr("Lasts"), 1, kMostDays, tr("days"))),
      total_(new Label({}, Type::strong)),
      says_(new Label({}, Type::text, Tone::danger)),
      notes_(new QVBoxLayout),
      flags_(new QVBoxLayout) {
    setMinimumWidth(kWidth);
    body()->addLayout(notes_);
    make_fields(shown);
    body()->addWidget(total_->wrapped());
    body()->addWidget(says_->wrapped());
    body()->addLayout(flags_);
    body()->addStretch(1);  // what room is left over never parts the fields
    length_->set_number(plan_.request.days_per_step);
}

void StepDialog::make_fields(const Regimen& shown) {
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace3);
    for (TypedField* field : {static_cast<TypedField*>(starts_), static_cast<TypedField*>(length_)}) {
        auto* column = new QVBoxLayout;
        add_field(*column, field == starts_ ? tr("Begins on") : tr("Lasts"), field);
        field->set_required(true);
        row->addLayout(column, 1);
        connect(field, &TypedField::edited, this, &StepDialog::judge);
    }
    body()->addLayout(row);
    for (const DoseTime& dose : shown.doses) {
        if (dose.drug != plan_.request.drug) {
            others_.push_back(dose);
            continue;
        }
        auto* edit = new DoseEdit(workbench_.texts(), tr("Dose at %1").arg(text_of(dose.at)));
        edit->set_dose(dose.amount);
        edit->set_required(true);
        add_field(*body(), tr("%1 at %2").arg(to_text(dose.drug), text_of(dose.at)), edit);
        connect(edit, &TypedField::edited, this, &StepDialog::judge);
        doses_.push_back({dose, edit});
    }
}

void StepDialog::add_note(const Flag& flag) {
    notes_->addWidget(new FlagRow(workbench_, flag, Weight::note));
}

void StepDialog::offer(const QString& commit) {
    commit_ = set_buttons(commit, tr("Go back"));
    judge();
    starts_->edit()->setFocus();
}

void StepDialog::set_day(Day day) {
    starts_->set_day(day);
    judge();
}

void StepDialog::set_length(std::optional<int> days) {
    length_->set_number(days.value_or(plan_.request.days_per_step));
    judge();
}

std::optional<HandStep> StepDialog::read() const {
    HandStep step;
    if (!starts_->day() || !length_->number()) return std::nullopt;
    step.starts = *starts_->day();
    step.days = length_->number();
    step.doses = others_;
    for (const DoseField& field : doses_) {
        const auto amount = field.edit->dose();
        if (!amount) return std::nullopt;
        step.doses.push_back({field.dose.at, field.dose.drug, *amount, {}, {}});
    }
    std::ranges::stable_sort(step.doses, {}, &DoseTime::at);
    return step;
}

std::optional<HandStep> StepDialog::step() const {
    return fits_ ? read() : std::nullopt;
}

void StepDialog::judge() {
    if (!commit_) return;
    clear_layout(*flags_);
    says_->clear();
    total_->clear();
    fits_ = false;
    if (const auto step = read()) {
        const auto laid = with_hand_step(plan_, keep_, *step, workbench_.desk().rules());
        if (laid)
            show_step(laid->steps.back());
        else
            show_faults(laid.faults());
    }
    says_->setVisible(!says_->text().isEmpty());
    set_reason_disabled(commit_, fits_ ? QString() : tr("What stands here cannot be a step yet."));
}

void StepDialog::show_faults(const Faults& faults) {
    QStringList sentences;
    for (const Fault& fault : faults) sentences << to_text(workbench_.texts().text(fault.id, fault.args));
    says_->setText(sentences.join(QLatin1Char('\n')));
}

void StepDialog::show_step(const Step& step) {
    const Share& cut = step.percent_of_last;
    const QString change = cut < Share() ? tr("more than the dose before")
                           : cut == Share()
                               ? tr("as the dose before")
                               : tr("%1 % less than the dose before").arg(to_text(print_percent(cut)));
    QStringList lines{tr("%1, %2").arg(daily_text(step.daily), change)};
    for (const PlannedDose& dose : step.doses)
        if (!dose.pieces.empty()) lines << tr("%1: %2").arg(text_of(dose.at), pieces_text(dose.pieces));
    total_->setText(lines.join(QLatin1Char('\n')));
    for (const Flag& flag : step.flags) flags_->addWidget(new FlagRow(workbench_, flag, Weight::presses));
    fits_ = !above_ || step.daily > *above_;
    if (!fits_) says_->setText(tr("That is not above the dose in force, %1.").arg(daily_text(*above_)));
}

}  // namespace evenfall::ui
