// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/snooze_dialog.h"

#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/form.h"
#include "controls/typed_field.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {

SnoozeDialog::SnoozeDialog(Workbench& workbench, const Flag& flag, QWidget* parent)
    : QuietDialog(tr("Put off"), workbench.sentence(flag), parent),
      workbench_(workbench),
      rule_(flag.rule),
      until_(new DayEdit(workbench.texts(), tr("It comes back on"))),
      reason_(make_line(tr("Why it can wait"))) {
    until_->set_required(true);
    until_->set_day(workbench.today() + std::chrono::days(1));
    add_field(*body(), tr("It comes back on"), until_);
    add_field(*body(), tr("Why it can wait"), reason_);
    set_buttons(tr("Put off"), tr("Leave"));
    reason_->setFocus();
}

void SnoozeDialog::accept() {
    if (!until_->check()) return;
    if (workbench_.carry_out({ReasonSnoozed{rule_, *until_->day(), to_utf8(reason_->text().trimmed())}}))
        QuietDialog::accept();
}

}  // namespace evenfall::ui
