// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shell/workbench.h"

namespace evenfall::ui {

class FaultPanel;

/// Why whoever works here may not change the clinic's settings; empty where they may.
QString why_not_changed_here(const Workbench& workbench);

/// Writes one change of the clinic; its faults are shown in `faults`. Returns whether it was written.
bool write_for_clinic(Workbench& workbench, Change change, FaultPanel& faults);

}  // namespace evenfall::ui
