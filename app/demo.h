// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/basis.h"
#include "casework/desk.h"

namespace evenfall::app {

/// A desk on a throw-away copy of the invented caseload, told as of `now`, in memory: nothing of it
/// stays. On failure the faults are on standard error.
std::optional<Desk> demo_desk(const Resources& resources, LocalTime now);

}  // namespace evenfall::app
