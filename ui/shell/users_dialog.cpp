// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/users_dialog.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/secret_line.h"
#include "shell/task.h"
#include "texts/render.h"

namespace evenfall::ui {
UsersDialog::UsersDialog(Workbench& workbench, WindowServices& services, QWidget* parent)
    : QuietDialog(tr("People who work here"),
                  tr("A nurse records and prepares; a prescriber also signs. Everyone has a passphrase of "
                     "their own."),
                  parent),
      workbench_(workbench),
      services_(services),
      list_(new QVBoxLayout),
      name_(make_line(tr("Name"))),
      role_(make_choice(tr("Role"), {tr("Nurse"), tr("Prescriber")})),
      licence_(make_line(tr("Licence, for a prescriber"))),
      passphrase_(make_secret(tr("Their passphrase"))),
      again_(make_secret(tr("Their passphrase again"))),
      says_(new Label({}, Type::text, Tone::danger)),
      task_(new Task(this)) {
    body()->addLayout(list_);
    list_users();
    add_form();
    commit_ = set_buttons(tr("Let this person in"), tr("Close"));
    name_->setFocus();
}

void UsersDialog::add_form() {
    body()->addWidget(new Label(tr("Another person"), Type::heading));
    auto* columns = new QHBoxLayout;
    auto* left = new QVBoxLayout;
    auto* right = new QVBoxLayout;
    add_field(*left, tr("Name"), name_);
    add_field(*left, tr("Role"), role_);
    add_field(*left, tr("Licence, for a prescriber"), licence_);
    add_field(*right, tr("Their passphrase"), passphrase_);
    add_field(*right, tr("Again"), again_);
    left->addStretch();
    right->addStretch();
    columns->addLayout(left);
    columns->addLayout(right);
    columns->setSpacing(kSpace4);
    body()->addLayout(columns);
    auto* hint = new Label(tr("Four or five unrelated words are strong and easy to keep."), Type::note,
                           Tone::soft_ink);
    body()->addWidget(hint->wrapped());
    body()->addWidget(says_->wrapped());
}

void UsersDialog::list_users() {
    while (QLayoutItem* item = list_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const User& user : services_.users()) {
        if (user.grant.recovery) continue;
        auto* card = new Card;
        auto* row = new QHBoxLayout;
        row->addWidget(new Label(to_text(user.grant.name), Type::strong));
        row->addWidget(new Label(user.open() ? to_text(word(user.grant.role))
                                             : tr("%1, closed").arg(to_text(word(user.grant.role))),
                                 Type::text, Tone::soft_ink));
        row->addStretch();
        if (user.open() && services_.close_user && user.grant.id != workbench_.desk().worker().id) {
            auto* close = make_button(tr("End their access"));
            close->setAccessibleName(tr("End the access of %1").arg(to_text(user.grant.name)));
            connect(close, &QPushButton::clicked, this, [this, user] { close_user(user); });
            row->addWidget(close);
        }
        card->body()->addLayout(row);
        list_->addWidget(card);
    }
}

void UsersDialog::close_user(const User& user) {
    const QString name = to_text(user.grant.name);
    if (!ask_once(tr("End the access of %1?").arg(name),
                  tr("What they wrote stays on the record. They can read and write nothing more, and this "
                     "cannot be undone: "
                     "to come back they need a new passphrase."),
                  tr("End their access"), this))
        return;
    const auto done = services_.close_user(user.grant.id);
    if (!done) return show_fault(done.faults());
    list_users();
}

void UsersDialog::show_fault(const Faults& faults) {
    QStringList lines;
    for (const Fault& fault : faults) lines << to_text(workbench_.texts().text(fault.id, fault.args));
    says_->setText(lines.join(u'\n'));
}

void UsersDialog::accept() {
    if (passphrase_->text() != again_->text())
        return says_->setText(tr("The two passphrases differ. Type them again."));
    NewUser user;
    user.name = to_utf8(name_->text().trimmed());
    user.role = role_->currentIndex() == 0 ? Role::nurse : Role::prescriber;
    user.licence = to_utf8(licence_->text().trimmed());
    const std::string passphrase = to_utf8(passphrase_->text());
    if (!services_.granting) return take_granted(services_.grant(user, passphrase));
    if (task_->is_running()) return;
    commit_->setEnabled(false);
    commit_->setText(tr("Making keys…"));
    task_->run([granting = services_.granting, user, passphrase] { return granting(user, passphrase); },
               [this](const std::function<Result<User>()>& finish) {
                   commit_->setEnabled(true);
                   commit_->setText(tr("Let this person in"));
                   take_granted(finish());
               });
}

void UsersDialog::take_granted(const Result<User>& granted) {
    if (!granted) return show_fault(granted.faults());
    for (QLineEdit* field : {name_, licence_, passphrase_, again_}) field->clear();
    says_->clear();
    list_users();
    name_->setFocus();
}

}  // namespace evenfall::ui
