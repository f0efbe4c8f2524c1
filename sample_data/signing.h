// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_data/story.h"

namespace evenfall::sample {

/// How a person's taper was signed, two steps at a time.
struct Signing {
    PlanRequest request{};
    Regimen start{};
    std::vector<Product> products{};
    int lead_days = 10;    ///< the next two steps are signed so long before the first of them
    Day until = kToday;    ///< nothing is signed after this day
    bool off_too = false;  ///< the step to OFF is signed with the last two
};

/// A request with the clinic's usual pace: target 8 %, cap 10 %, 14 days.
PlanRequest usual_request(const std::string& drug);

/// Moves the start so that step `step` (0: the last one) began `days` before the day told.
void start_so_that(Signing& signing, int step, int days, const Teller& teller);

/// Plans, signs, and plans again as each pair of steps comes up; a schedule is handed out with every
/// signature. Returns the plan in force at the end. Throws std::runtime_error where the planner refuses.
Plan sign(Story& story, const Signing& signing, const Teller& teller);

}  // namespace evenfall::sample
