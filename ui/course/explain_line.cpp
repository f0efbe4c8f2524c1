// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/explain_line.h"

#include <QAccessible>
#include <QHBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "controls/why.h"
#include "shell/workbench.h"

namespace evenfall::ui {

ExplainLine::ExplainLine(const Workbench& workbench, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      says_((new Label)->wrapped()),
      why_(make_button(tr("Why?"), ButtonKind::quiet)) {
    body()->setContentsMargins(kSpace3, kSpace1, kSpace2, kSpace1);
    auto* row = new QHBoxLayout;
    row->addWidget(says_, 1);
    row->addWidget(why_);
    body()->addLayout(row);
    says_->setAccessibleName(tr("What is chosen"));
    why_->setAccessibleName(tr("Why? Inputs and origin of what is chosen"));
    connect(why_, &QPushButton::clicked, this, &ExplainLine::open_why);
    explain(nullptr);
}

void ExplainLine::explain(const LaneItem* item) {
    item_ = item ? *item : LaneItem();
    says_->setText(
        item ? item->says
             : tr("Choose something on a lane, by mouse or with the arrow keys, to have it explained."));
    why_->setVisible(item && (!item->because.isEmpty() || !item->flags.empty()));
    QAccessibleEvent changed(says_, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&changed);
}

QString ExplainLine::text() const {
    return says_->text();
}

void ExplainLine::open_why() {
    auto* popover = new Popover(why_);
    popover->setAttribute(Qt::WA_DeleteOnClose);
    auto* column = new QVBoxLayout(popover);
    column->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    if (!item_.because.isEmpty()) {
        auto* because = new Label(item_.because);
        because->wrapped();
        because->setMinimumWidth(360);
        column->addWidget(because);
    }
    for (const Flag& flag : item_.flags)
        column->addWidget(
            new FlagRow(workbench_, flag, flag.rule == "level-spread" ? Weight::note : Weight::presses));
    popover->open();
}

}  // namespace evenfall::ui
