// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "model/plan.h"
#include "rules/rules.h"

// What a person's steps so far teach about the next: rise of burden against the size of the cut.

namespace evenfall {

/// A judged step: the fall ln(u/v) of its cut and the rise that followed, in points.
struct SensitivityPoint {
    double fall = 0;
    double rise = 0;
    Share cut;
};

/// Points of rise that a cut of 10 % of the current dose brings, with its 90 % interval.
struct SensitivityEstimate {
    double low = 0, middle = 0, high = 0;

    bool operator==(const SensitivityEstimate&) const = default;
};

/// The share of the t distribution that the interval claims to hold.
inline constexpr double kSensitivityLevel = 0.9;

struct Sensitivity {
    int steps = 0;                                ///< judged steps that it rests on
    std::optional<SensitivityEstimate> estimate;  ///< empty with too few steps
    std::optional<Share> proposed_target;         ///< for the outlook; never above the cap
    std::vector<Flag> says;

    bool operator==(const Sensitivity&) const = default;
};

/// Half the width of the 90 % interval of a t distribution, in standard errors. REQUIRES degrees >= 1. Beyond
/// 30 the value for 30 is kept, which errs on the wide side. Source: any table of Student's t (two-sided
/// 0.10).
double student_t_90(int degrees);

/// Least squares through the origin (no cut, no rise) with a t interval. The target proposed is the cut whose
/// rise at the interval's high end stays tolerable (rule `sensitivity`), not far beyond the largest cut
/// tried, rounded down to a tenth of a percent.
Sensitivity learn_sensitivity(const std::vector<SensitivityPoint>& points, const Share& cap,
                              const Rules& rules);

}  // namespace evenfall
