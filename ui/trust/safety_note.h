// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPushButton>

#include "shell/workbench.h"

namespace evenfall::ui {

class BackupKeeper;

/// One calm line in the main window where safe keeping asks for something: that the last back-up failed or is
/// old. It opens the window of safe keeping; hidden where nothing is to be done.
class SafetyNote : public QPushButton {
    Q_OBJECT
  public:
    SafetyNote(Workbench& workbench, BackupKeeper& keeper, QWidget* parent);
    void refresh();

  private:
    Workbench& workbench_;
    BackupKeeper& keeper_;
};

}  // namespace evenfall::ui
