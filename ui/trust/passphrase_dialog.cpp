// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/passphrase_dialog.h"

#include <QLineEdit>
#include <QPushButton>

#include "controls/form.h"
#include "controls/label.h"
#include "controls/secret_line.h"
#include "shell/task.h"
#include "texts/render.h"

namespace evenfall::ui {
PassphraseDialog::PassphraseDialog(const Texts& texts, Store::PassphraseChange change, QWidget* parent)
    : QuietDialog(tr("Change my passphrase"),
                  tr("Four or five unrelated words are strong and easy to keep. Nobody can look it up for "
                     "you; back-ups made before still open with the old one."),
                  parent),
      texts_(texts),
      change_(std::move(change)),
      old_(make_secret(tr("Passphrase until now"))),
      fresh_(make_secret(tr("New passphrase"))),
      again_(make_secret(tr("New passphrase again"))),
      says_(new Label({}, Type::text, Tone::danger)),
      task_(new Task(this)) {
    add_field(*body(), tr("Passphrase until now"), old_);
    add_field(*body(), tr("New passphrase"), fresh_);
    add_field(*body(), tr("New passphrase again"), again_);
    body()->addWidget(says_->wrapped());
    commit_ = set_buttons(tr("Change it"), tr("Leave it"));
    old_->setFocus();
}

void PassphraseDialog::say(const Faults& faults) {
    QStringList lines;
    for (const Fault& fault : faults) lines << to_text(texts_.text(fault.id, fault.args));
    says_->setText(lines.join(u'\n'));
}

void PassphraseDialog::accept() {
    if (task_->is_running()) return;
    if (fresh_->text() != again_->text())
        return says_->setText(tr("The two passphrases differ. Type them again."));
    says_->clear();
    commit_->setEnabled(false);
    task_->run([change = change_, old = to_utf8(old_->text()),
                fresh = to_utf8(fresh_->text())]() mutable { return change(old, fresh); },
               [this](const std::function<Result<Done>()>& finish) {
                   commit_->setEnabled(true);
                   const auto changed = finish();
                   for (QLineEdit* field : {old_, fresh_, again_}) field->clear();
                   if (changed) return QuietDialog::accept();
                   say(changed.faults());
                   old_->setFocus();
               });
}

void PassphraseDialog::reject() {
    if (!task_->is_running()) QuietDialog::reject();
}

}  // namespace evenfall::ui
