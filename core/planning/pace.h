// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "model/plan.h"

namespace evenfall::planning {

/// How many days each step lasts, from the daily amounts before the first step and after each one. Pace
/// `fixed`: the interval. Pace `even`: a cut larger than the target is followed by interval × ln(u/v) /
/// ln(1/(1 − target)) days, in whole days (whole weeks where the interval is in whole weeks), the rounding
/// carried on to the next step, never shorter than the interval.
std::vector<int> stays(const PlanRequest& request, const std::vector<Dose>& daily);

}  // namespace evenfall::planning
