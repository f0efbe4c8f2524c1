// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "controls/why.h"

class QListWidget;

namespace evenfall::ui {

/// A flag with the entries that raised it; an entry asks for its day in the diary.
class FlagEntries : public QWidget {
    Q_OBJECT
  public:
    FlagEntries(const Workbench& workbench, const Flag& flag, Weight weight, bool opened,
                QWidget* parent = nullptr);
    /// Null where the flag names no entries.
    QListWidget* entries() const { return list_; }

  signals:
    void day_wanted(evenfall::Day day);

  private:
    QListWidget* list_ = nullptr;
};

}  // namespace evenfall::ui
