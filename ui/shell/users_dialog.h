// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "shell/main_window.h"

class QComboBox;
class QPushButton;

namespace evenfall::ui {

class Label;
class Task;

/// Who works here, and a form to let another one in.
class UsersDialog : public QuietDialog {
    Q_OBJECT
  public:
    UsersDialog(Workbench& workbench, WindowServices& services, QWidget* parent = nullptr);
    void accept() override;

  private:
    void add_form();
    void list_users();
    void close_user(const User& user);
    void show_fault(const Faults& faults);
    void take_granted(const Result<User>& granted);

    Workbench& workbench_;
    WindowServices& services_;
    QVBoxLayout* list_;
    QLineEdit* name_;
    QComboBox* role_;
    QLineEdit* licence_;
    QLineEdit* passphrase_;
    QLineEdit* again_;
    Label* says_;
    QPushButton* commit_ = nullptr;
    Task* task_;
};

}  // namespace evenfall::ui
