// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_acts.h"

#include <QMenu>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/wrap_row.h"
#include "theme/theme.h"

namespace evenfall::ui {

PlanActs::PlanActs(QWidget* parent) : QWidget(parent), adjust_menu_(new QMenu(this)), menu_(new QMenu(this)) {
    auto* row = new WrapRow(this, kSpace2);
    hold_ = add_button(tr("Hold the dose…"), PlanAct::hold);
    go_on_ = add_button(tr("Go on…"), PlanAct::go_on);
    cross_ = add_button(tr("Cross over…"), PlanAct::cross_over);
    compare_ = add_button(tr("Keep to compare"), PlanAct::compare);
    adjust_ = make_button(tr("Adjust"));
    adjust_->setMenu(adjust_menu_);
    adjust_->setAccessibleName(tr("Adjust the plan"));
    row->addWidget(adjust_);
    more_ = make_button(tr("More"));
    more_->setMenu(menu_);
    more_->setAccessibleName(tr("More acts on the plan"));
    row->addWidget(more_);
    adjusting_ = {add_item(adjust_menu_, tr("Slow down…"), PlanAct::slower),
                  smaller_ = add_item(adjust_menu_, tr("Smaller next cut…"), PlanAct::smaller_next),
                  add_item(adjust_menu_, tr("Next step earlier or later…"), PlanAct::move_next),
                  add_item(adjust_menu_, tr("Other products…"), PlanAct::products),
                  add_item(adjust_menu_, tr("Down to a maintenance dose…"), PlanAct::lower_end)};
    adjust_menu_->addSeparator();
    break_ = add_item(adjust_menu_, tr("After missed doses or a stop in hospital…"), PlanAct::after_break);
    adjust_menu_->setToolTipsVisible(true);
    stay_ = add_item(menu_, tr("Stay at this dose…"), PlanAct::stay);
    end_ = add_item(menu_, tr("End the plan…"), PlanAct::end);
    back_up_ = add_item(menu_, tr("Go back up…"), PlanAct::back_up);
    menu_->addSeparator();
    judge_ = add_item(menu_, tr("Judge a schedule made elsewhere…"), PlanAct::judge);
    supply_ = add_item(menu_, tr("Supply for these steps…"), PlanAct::supply);
    menu_->setToolTipsVisible(true);
}

void PlanActs::begin_with(QPushButton* button) {
    static_cast<WrapRow*>(layout())->begin_with(button);
}

QPushButton* PlanActs::add_button(const QString& text, PlanAct act) {
    auto* button = make_button(text);
    connect(button, &QPushButton::clicked, this, [this, act] { emit wanted(act); });
    layout()->addWidget(button);
    return button;
}

QAction* PlanActs::add_item(QMenu* menu, const QString& text, PlanAct act) {
    QAction* item = menu->addAction(text);
    connect(item, &QAction::triggered, this, [this, act] { emit wanted(act); });
    return item;
}

void PlanActs::allow(QAction* item, const QString& reason) {
    item->setEnabled(reason.isEmpty());
    item->setToolTip(reason);
    item->setStatusTip(reason);
}

void PlanActs::judge(const std::optional<PlanBase>& base, bool prescriber, bool has_plan, bool can_compare,
                     bool stage_next) {
    const QString nurse = prescriber ? QString() : tr("A prescriber decides this. You can prepare and look.");
    const bool in_force = base && base->in_force;
    const QString no_plan = in_force ? QString() : tr("No signed plan is in force.");
    const QString decided = !nurse.isEmpty() ? nurse : no_plan;
    const bool held = base && base->hold;
    go_on_->setVisible(held);
    hold_->setText(held ? tr("Hold longer…") : tr("Hold the dose…"));
    hold_->setAccessibleName(hold_->text());
    set_reason_disabled(hold_, decided);
    set_reason_disabled(go_on_, decided);
    set_reason_disabled(cross_, base ? QString() : tr("Record what is taken first."));
    set_reason_disabled(compare_, !has_plan      ? tr("There are no steps to keep yet.")
                                  : !can_compare ? tr("Four plans are side by side. Let one go first.")
                                                 : QString());
    const QString no_steps = has_plan ? QString() : tr("There are no steps yet.");
    for (QAction* item : adjusting_) allow(item, no_steps);
    if (has_plan && stage_next) allow(smaller_, tr("The stages of the crossover come first."));
    allow(break_, !no_plan.isEmpty() ? no_plan : no_steps);
    set_reason_disabled(adjust_, no_steps);
    allow(stay_, decided);
    allow(end_, decided);
    allow(back_up_, !decided.isEmpty() ? decided
                    : base->begun == 0 ? tr("No reduction has begun yet.")
                                       : QString());
    allow(judge_, base ? QString() : tr("Record what is taken first."));
    allow(supply_, no_steps);
}

}  // namespace evenfall::ui
