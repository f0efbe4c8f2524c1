// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "kinetics/levels.h"

namespace evenfall::kinetics {

/// The steady state of doses repeated every 24 hours for ever, as a start at `time_h`, where `clock_h` (0 up
/// to 24) is the hour of the day; a dose at that very instant is not yet taken. Solved directly, without a
/// warm-up.
Start steady_start(const Model& model, const std::vector<DailyDose>& doses, double clock_h = 0,
                   double time_h = 0);

/// One day at steady state, of the relative level (mg/day).
struct DayProfile {
    double peak = 0, trough = 0, average = 0;  ///< average = mg a day
    double peak_at_h = 0, trough_at_h = 0;     ///< hours after the day's start, 0 up to 24
    double fluctuation = 0;                    ///< (peak - trough) / average
    double hours_under = 0;                    ///< hours under `under_share` of the average

    bool operator==(const DayProfile&) const = default;
};

/// Peak and trough are found to the instant (zeros of the slope, not the highest of samples); `hours_under`
/// to a second or so. All zero where nothing is taken. `under_share` is rule `level-low`'s share, e.g. 0.8.
DayProfile day_profile(const Model& model, const std::vector<DailyDose>& doses, double under_share);

/// The relative level over one day at steady state, every `step_h` hours from the day's start to its end,
/// both included.
std::vector<double> day_curve(const Model& model, const std::vector<DailyDose>& doses, double step_h);

/// The doses of the same day repeated for `days` days from `time_h` on, `clock_h` being the hour of the day
/// then.
std::vector<TimedDose> repeated(const std::vector<DailyDose>& doses, int days, double time_h = 0,
                                double clock_h = 0);

}  // namespace evenfall::kinetics
