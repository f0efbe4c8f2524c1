// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QWidget;

namespace evenfall::ui {

/// Prints the recovery key on one sheet after asking for the printer. Returns what went wrong, in words;
/// empty where it was printed or left.
QString print_recovery_key(const QString& key, const QString& clinic, QWidget* parent);

}  // namespace evenfall::ui
