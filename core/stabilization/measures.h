// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "stabilization/dosing.h"

namespace evenfall::stabilization {

/// The time between two counted doses of one agent that follow each other, with no unknown day between.
struct Interval {
    std::size_t from = 0, to = 0;  ///< indices into the diary's intake
    double hours = 0;              ///< real hours: over a clock change a civil day has 23 or 25
    double intended_h = 0;         ///< to the next intended dose time; 0 where none is intended
};

/// The intervals of the judged days, in order of their beginning. Empty unless use is scheduled.
std::vector<Interval> intervals(const Context& context, const Dosing& dosing);
/// Whether an interval is a gap: longer than the rule's multiple of the intended one.
bool is_long_gap(const Interval& interval, const Rules& rules);

Measures measure(const Context& context, const Dosing& dosing, const std::vector<Interval>& between);

}  // namespace evenfall::stabilization
