// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "kinetics/steady.h"

namespace evenfall::kinetics {

/// The highest and lowest relative level of a day at steady state, and the hours under `threshold` (mg/day).
struct DayExtremes {
    struct Point {
        double value = 0, at_h = 0;
    };
    Point highest, lowest;
    double hours_under = 0;
};

DayExtremes scan_day(const Model& model, const std::vector<DailyDose>& doses, double threshold);

}  // namespace evenfall::kinetics
