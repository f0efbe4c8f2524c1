// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_acts.h"

#include <QMenu>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/wrap_row.h"
#include "theme/theme.h"

namespace evenfall::ui {

PlanActs::PlanActs(QWidget* parent) : QWidget(parent), menu_(new QMenu(this)) {
    auto* row = new WrapRow(this, kSpace2);
    hold_ = add_button(tr("Hold the dose…"), PlanAct::hold);
    go_on_ = add_button(tr("Go on…"), PlanAct::go_on);
    cross_ = add_button(tr("Cross over…"), PlanAct::cross_over);
    compare_ = add_button(tr("Keep to compare"), PlanAct::compare);
    more_ = make_button(tr("More"));
    more_->setMenu(menu_);
    more_->setAccessibleName(tr("More acts on the plan"));
    row->addWidget(more_);
    stay_ = add_item(tr("Stay at this dose…"), PlanAct::stay);
    end_ = add_item(tr("End the plan…"), PlanAct::end);
    back_up_ = add_item(tr("Go back up…"), PlanAct::back_up);
    menu_->addSeparator();
    judge_ = add_item(tr("Judge a schedule made elsewhere…"), PlanAct::judge);
    supply_ = add_item(tr("Supply for these steps…"), PlanAct::supply);
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

QAction* PlanActs::add_item(const QString& text, PlanAct act) {
    QAction* item = menu_->addAction(text);
    connect(item, &QAction::triggered, this, [this, act] { emit wanted(act); });
    return item;
}

void PlanActs::allow(QAction* item, const QString& reason) {
    item->setEnabled(reason.isEmpty());
    item->setToolTip(reason);
    item->setStatusTip(reason);
}

void PlanActs::judge(const std::optional<PlanBase>& base, bool prescriber, bool has_plan, bool can_compare) {
    const QString nurse = prescriber ? QString() : tr("A prescriber decides this. You can prepare and look.");
    const bool in_force = base && base->in_force;
    const QString no_plan = in_force ? QString() : tr("No signed plan is in force.");
    const QString decided = !nurse.isEmpty() ? nurse : no_plan;
    const bool held = base && base->hold;
    go_on_->setVisible(held);
    hold_->setVisible(!held);
    set_reason_disabled(hold_, decided);
    set_reason_disabled(go_on_, decided);
    set_reason_disabled(cross_, base ? QString() : tr("Record what is taken first."));
    set_reason_disabled(compare_, !has_plan      ? tr("There are no steps to keep yet.")
                                  : !can_compare ? tr("Four plans are side by side. Let one go first.")
                                                 : QString());
    allow(stay_, decided);
    allow(end_, decided);
    allow(back_up_, !decided.isEmpty() ? decided
                    : base->begun == 0 ? tr("No reduction has begun yet.")
                                       : QString());
    allow(judge_, base ? QString() : tr("Record what is taken first."));
    allow(supply_, has_plan ? QString() : tr("There are no steps yet."));
}

}  // namespace evenfall::ui
