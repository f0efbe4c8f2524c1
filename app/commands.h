// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

#include "app/exit_code.h"

namespace evenfall::app {

// Each command reads its own words (those after its name), calls core or ui, and prints. No rule lives here.

Exit compute_command(const QStringList& words);
Exit papers_command(const QStringList& words);
Exit picture_command(const QStringList& words);
Exit store_command(const QStringList& words);
/// "demo FOLDER": the demo's papers and pictures, for a machine without a display.
Exit demo_command(const QStringList& words);

/// Opens the window: on a store (the usual place where `file` is empty).
Exit open_window(const QString& file);

}  // namespace evenfall::app
