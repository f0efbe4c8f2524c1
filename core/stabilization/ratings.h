// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/dosing.h"

namespace evenfall::stabilization {

/// The ratings of judged days that lie between two counted doses not too far apart. A rating at the very
/// minute of a dose is taken as made before it: the dose has not acted yet.
std::vector<RatingPoint> rating_points(const Context& context, const Dosing& dosing);

/// The between-dose statistic on these ratings, with the rules' settings.
BetweenDose between_dose_of(const Context& context, const std::vector<RatingPoint>& points);

/// The flag that says the answer, with the late ratings above their symptom's mean as entries where it is
/// shown.
Flag between_dose_flag(const Context& context, const BetweenDose& found,
                       const std::vector<RatingPoint>& points);

}  // namespace evenfall::stabilization
