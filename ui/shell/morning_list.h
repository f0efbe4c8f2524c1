// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "papers/morning.h"
#include "shell/workbench.h"

namespace evenfall::ui {

/// The morning's list of the people given, in their order: everyone whom something presses today or this
/// week. It says how many more there are whose records are `unreadable`.
papers::MorningList morning_list(Workbench& workbench, const std::vector<CaseloadLine>& lines,
                                 int unreadable);

/// Shows it page by page, and prints it or writes it as a PDF.
void show_morning_list(Workbench& workbench, const std::vector<CaseloadLine>& lines, int unreadable,
                       QWidget* parent);

}  // namespace evenfall::ui
