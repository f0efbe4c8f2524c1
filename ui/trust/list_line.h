// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHBoxLayout>
#include <QString>

namespace evenfall::ui {

/// A line of a list with a dash before it; its further lines hang under its first word. The dash is painted,
/// so that a screen reader reads the words alone.
QHBoxLayout* list_line(const QString& text);

}  // namespace evenfall::ui
