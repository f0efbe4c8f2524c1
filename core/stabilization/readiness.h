// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/dosing.h"

namespace evenfall::stabilization {

/// The gates that stand beside the verdict: one scheduled regimen, unchanged long enough, no rising symptoms,
/// no red flag, screens answered.
std::vector<Gate> readiness(const Context& context, const Dosing& dosing);

}  // namespace evenfall::stabilization
