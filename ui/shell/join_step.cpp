// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/join_step.h"

#include <QFileDialog>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/form.h"
#include "controls/secret_line.h"
#include "texts/render.h"

namespace evenfall::ui {

JoinStep::JoinStep(QWidget* parent)
    : UnlockStep(tr("Join a clinic"),
                 tr("On the clinic's other laptop, let yourself in under “People who work here”, then write "
                    "an exchange file under “Safe keeping”. Bring it here on a stick."),
                 tr("Join"), parent),
      file_(make_line(tr("Exchange file"))),
      user_(make_line(tr("Your name there"))),
      passphrase_(make_secret(tr("Your passphrase there"))) {
    add_field(*form(), tr("Exchange file"), file_);
    connect(add_other(tr("Choose the file…")), &QPushButton::clicked, this, &JoinStep::choose);
    add_field(*form(), tr("Your name there"), user_);
    add_field(*form(), tr("Your passphrase there"), passphrase_);
}

void JoinStep::choose() {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Which exchange file"), {}, tr("Exchange files (*.evenfall-exchange);;All files (*)"));
    if (file.isEmpty()) return;
    file_->setText(file);
    user_->setFocus();
}

std::filesystem::path JoinStep::exchange() const {
    return to_utf8(file_->text().trimmed());
}

std::string JoinStep::user() const {
    return to_utf8(user_->text().trimmed());
}

std::string JoinStep::passphrase() const {
    return to_utf8(passphrase_->text());
}

void JoinStep::forget_passphrase() {
    passphrase_->clear();
}

}  // namespace evenfall::ui
