// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shell/workbench.h"

namespace evenfall::ui {

class FaultPanel;

/// Why whoever works here may not change the clinic's settings; empty where they may.
QString why_not_changed_here(const Workbench& workbench);

/// Writes changes of the clinic, all or none; their faults are shown in `faults`. Returns whether they were
/// written.
bool write_for_clinic(Workbench& workbench, std::vector<Change> changes, FaultPanel& faults);

}  // namespace evenfall::ui
