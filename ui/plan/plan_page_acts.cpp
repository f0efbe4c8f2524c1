// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPushButton>
#include <QScrollArea>

#include "course/day_words.h"
#include "plan/adjust_dialog.h"
#include "plan/crossover_dialog.h"
#include "plan/plan_decisions.h"
#include "plan/plan_page.h"
#include "plan/plan_signing.h"
#include "plan/schedule_dialog.h"
#include "plan/step_dialog.h"
#include "plan/steps_table.h"
#include "plan/supply_dialog.h"

// What a clinician does with the plan on the table.

namespace evenfall::ui {

using std::chrono::days;

void PlanPage::act(PlanAct act) {
    if (!base_) return;
    switch (act) {
        case PlanAct::hold:
            ask_to_hold(workbench(), *base_, window());
            break;
        case PlanAct::go_on:
            return go_on();
        case PlanAct::stay:
            ask_to_stay(workbench(), *base_, window());
            break;
        case PlanAct::end:
            ask_to_end(workbench(), *base_, window());
            break;
        case PlanAct::back_up:
            return go_back_up();
        case PlanAct::cross_over:
            return cross_over();
        case PlanAct::compare:
            return keep_variant();
        case PlanAct::judge:
            return judge_schedule();
        case PlanAct::supply:
            return show_supply();
        default:
            return adjust(act);
    }
}

bool PlanPage::only_off_is_left() const {
    return plan_ && kept_ > 0 && static_cast<std::size_t>(kept_) + 1 == plan_->steps.size() &&
           plan_->steps.back().daily.is_zero();
}

/// What the plan on the table was adjusted to, and why. A plan from elsewhere rests on none of it.
std::vector<Change> PlanPage::what_the_form_rests_on() {
    std::vector<Change> changes;
    const PatientRecord* record = workbench().record();
    if (record && form_.from_now && !(form_.from_now->now == base_->now))
        changes.push_back(RegimenRecorded{{form_.from_now->since, form_.from_now->now}, use_of(*record)});
    for (const std::string& each : form_.because) changes.push_back(NoteAdded{each});
    return changes;
}

/// Signs a plan with what else is written at once: the reasons are asked for in the same question.
void PlanPage::sign_plan(Plan plan, const SignRequest& request, std::vector<Change> with) {
    if (base_->hold) with.push_back(HoldEnded{base_->today});
    with.push_back(PlanCommitted{std::move(plan), base_->replaces, {}});
    SignRequest asked = request;
    asked.objections = workbench().objections(with);
    const auto reasons = ask_to_sign(asked);
    if (!reasons) return;
    if (workbench().carry_out(std::move(with), *reasons)) table_->setFocus();
}

/// The step to nothing is agreed on its own, with its milligrams in the question.
void PlanPage::agree_off() {
    Plan agreed = *plan_;
    agreed.steps.back().status = StepStatus::committed;
    const SignRequest request = off_to_agree(agreed, sign_->text());
    sign_plan(std::move(agreed), request, what_the_form_rests_on());
}

void PlanPage::sign() {
    if (!plan_ || !base_ || computing()) return;
    if (only_off_is_left()) return agree_off();
    if (count_to_sign(*plan_, kept_) == 0) return;
    sign_plan(*plan_, steps_to_sign(*plan_, kept_, !base_->replaces.empty(), sign_->text()),
              what_the_form_rests_on());
}

void PlanPage::go_on() {
    const auto day = ask_to_go_on(workbench(), *base_, window());
    if (!day) return;
    panel_->set_start(*day);
    sign_->setFocus();
}

void PlanPage::go_back_up() {
    const auto hand = ask_to_go_back_up(workbench(), *base_, window());
    const auto request = panel_->request();
    if (!hand || !request) return;
    PlanJob wanted = *job();
    wanted.keep = base_->begun;
    wanted.request.start = hand->starts;
    wanted.request.commit_steps = 1;
    const Rules& rules = workbench().desk().rules();
    auto laid = with_hand_step(*base_->in_force, wanted.keep, *hand, rules);
    if (!laid) return workbench().show_faults ? workbench().show_faults(laid.faults()) : void();
    // The way on from the higher dose is an outlook; where none can be laid, the step stands alone.
    PlanJob way = wanted;
    way.before = *laid;
    way.keep = wanted.keep + 1;
    way.request.start = hand->starts + days(hand->days.value_or(way.request.days_per_step));
    way.request.commit_steps = 0;
    way.by_hand.clear();
    if (auto on = compute_plan(way, rules, {})) laid = std::move(on);
    const SignRequest asked = back_up_to_sign(*laid, wanted.keep);
    sign_plan(std::move(*laid), asked);
}

void PlanPage::cross_over() {
    CrossoverDialog dialog(workbench(), *base_, window());
    if (dialog.exec() != QDialog::Accepted || !dialog.chosen()) return;
    PlanForm form = panel_->form();
    const Plan crossing = *dialog.chosen();
    const Day first_cut =
        first_cut_after_crossover(crossing).value_or(crossing.steps.back().starts + days(1));
    panel_->cross_to(crossing.request.drug, crossing.products, first_cut);
    form = panel_->form();
    form.crossing = crossing;
    go_to_now_ = true;
    set_form(std::move(form), QStringLiteral("crossing"));
}

void PlanPage::keep_variant() {
    if (!plan_ || variants_.size() + 1 >= kMostVariants) return;
    QString name = QStringLiteral("A");
    const auto taken = [&] {
        return std::ranges::any_of(variants_, [&](const Variant& each) { return each.name == name; });
    };
    while (taken()) name = QString(QChar(static_cast<char16_t>(name[0].unicode() + 1)));
    variants_.push_back({name, form_, figures_, panel_->asks()});
    show_standing();
    // Once it is laid out, the comparison is what was asked for.
    QTimer::singleShot(0, this, [this] { above_->ensureWidgetVisible(strip_); });
}

void PlanPage::use_variant(int kept) {
    const PlanForm form = variants_[static_cast<std::size_t>(kept)].form;
    set_form(form, QStringLiteral("variant"));
}

bool PlanPage::can_edit(int row) const {
    return plan_ && base_ && row >= kept_ && row < static_cast<int>(plan_->steps.size()) &&
           row >= crossover_stages(*plan_) && !plan_->steps[static_cast<std::size_t>(row)].daily.is_zero();
}

void PlanPage::set_by_hand(int row, const HandStep& hand) {
    PlanForm form = form_;
    // What was set later belonged to the plan as it was before.
    form.by_hand.erase(form.by_hand.lower_bound(row), form.by_hand.end());
    form.by_hand[row] = hand;
    set_form(std::move(form), QStringLiteral("step %1").arg(row));
}

void PlanPage::edit_step(int row) {
    if (!can_edit(row)) return;
    const Step& step = plan_->steps[static_cast<std::size_t>(row)];
    StepDialog dialog(
        workbench(), *plan_, row, regimen_of(step), tr("Set %1 by hand").arg(model_.number_text(row)),
        tr("The steps after it are planned anew from it. Nothing is signed by this."), window());
    dialog.set_day(step.starts);
    dialog.set_length(step.days);
    dialog.offer(tr("Set it so"));
    if (dialog.exec() != QDialog::Accepted) return;
    if (const auto hand = dialog.step()) set_by_hand(row, *hand);
}

void PlanPage::move_step(int row, int by) {
    if (!can_edit(row) || computing()) return;
    const Step& step = plan_->steps[static_cast<std::size_t>(row)];
    HandStep hand{step.starts + days(by), regimen_of(step).doses, step.days};
    if (hand.starts < least_day(row)) return;
    set_by_hand(row, hand);
}

Day PlanPage::least_day(int row) const {
    if (row == 0) return base_->today;
    return std::max(base_->today, plan_->steps[static_cast<std::size_t>(row) - 1].starts + days(1));
}

void PlanPage::adjust(PlanAct act) {
    const auto wanted = job();
    if (!wanted || !plan_ || computing()) return;
    AdjustDialog dialog(workbench(), act, {*base_, *wanted, *plan_, form_}, window());
    if (dialog.exec() != QDialog::Accepted || !dialog.adjusted()) return;
    set_form(*dialog.adjusted(), QStringLiteral("adjust %1").arg(undo_.count()));
    sign_->setFocus();
}

void PlanPage::judge_schedule() {
    const auto request = panel_->request();
    ScheduleDialog dialog(workbench(), *base_, request.value_or(PlanRequest{}), panel_->products(), window());
    if (dialog.exec() != QDialog::Accepted || !dialog.plan()) return;
    sign_plan(*dialog.plan(),
              steps_to_sign(*dialog.plan(), 0, !base_->replaces.empty(), tr("Sign these steps")));
}

void PlanPage::show_supply() {
    const PatientRecord* record = workbench().record();
    if (!plan_ || !record) return;
    SupplyDialog dialog(workbench(), *plan_, kept_ + count_to_sign(*plan_, kept_), *record, window());
    dialog.exec();
}

}  // namespace evenfall::ui
