// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "units/day.h"

namespace evenfall {

/// Where times on the circle of the day lie (Fisher 1993; Mardia and Jupp 2000): 23:50 and 00:10 are 20
/// minutes apart and their mean is midnight.
struct ClockSpread {
    std::optional<double>
        mean_minutes;       ///< after midnight, 0 up to 1440; empty where there is no typical time
    double resultant = 0;   ///< mean resultant length R, 0 (all over the day) to 1 (all at one time)
    double sd_minutes = 0;  ///< circular standard deviation √(−2 ln R), as minutes; infinite where R is 0
    int count = 0;
};

/// The circular mean and spread of times of day in minutes (any real, taken modulo 1440).
ClockSpread clock_spread(const std::vector<double>& minutes);

/// The signed distance from `from` to `to` round the day, in minutes, above −720 and up to 720.
int minutes_between(ClockTime from, ClockTime to);

}  // namespace evenfall
