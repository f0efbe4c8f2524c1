// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QLineEdit;

namespace evenfall::ui {

/// A line for a passphrase: what is typed is not shown. `name` is its name for assistive technology.
QLineEdit* make_secret(const QString& name);

}  // namespace evenfall::ui
