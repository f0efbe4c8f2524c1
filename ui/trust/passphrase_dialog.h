// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "rules/texts.h"
#include "store/store.h"

class QLineEdit;
class QPushButton;

namespace evenfall::ui {

class Label;
class Task;

/// Changes the passphrase of the user at the desk. The key is derived off the window's thread.
class PassphraseDialog : public QuietDialog {
    Q_OBJECT
  public:
    PassphraseDialog(const Texts& texts, Store::PassphraseChange change, QWidget* parent = nullptr);
    void accept() override;
    void reject() override;

  private:
    void say(const Faults& faults);

    const Texts& texts_;
    Store::PassphraseChange change_;
    QLineEdit *old_, *fresh_, *again_;
    Label* says_;
    QPushButton* commit_ = nullptr;
    Task* task_;
};

}  // namespace evenfall::ui
