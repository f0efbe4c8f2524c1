// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/diary.h"
#include "model/regimen.h"
#include "units/day.h"

namespace evenfall {

/// A set of clock times that belong together.
struct ClockGroup {
    ClockTime centre;                  ///< circular mean, to the nearest five minutes
    std::vector<std::size_t> members;  ///< indices into the times given
};

/// Parts times of day into `groups` groups so that the squared distances to the group means are least: exact
/// on the circle cut open at its widest empty stretch. Fewer groups where there are fewer distinct minutes.
/// In order of clock.
std::vector<ClockGroup> group_clock_times(const std::vector<ClockTime>& times, int groups);

/// The usual regimen of one agent as its entries show it: as many dose times as the median day has entries
/// (at least one), at the groups' centres, each with the amount most often taken there (the smaller where two
/// tie). `entries_by_day` holds the indices into `intake` by recorded day; empty where the agent was never
/// taken.
Regimen usual_regimen(const std::vector<Intake>& intake,
                      const std::vector<std::vector<std::size_t>>& entries_by_day, const std::string& drug);

}  // namespace evenfall
