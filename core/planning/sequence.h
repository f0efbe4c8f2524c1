// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "formulary/formulary.h"
#include "planning/taper.h"

namespace evenfall {

/// Tapers of several agents one after another, in the order that the clinician sets: while one is reduced the
/// others stay as they are. `requests[0]` begins on its own day; each later one on its own day too, but not
/// before the one before has ended (OFF, or its lower dose) and the longer of rule `sequence-wait` and five
/// half-lives of that agent has passed; where that moves it, the plan bears the flag `sequence-wait`. The
/// products are of all agents together; candidates for the floor come from the formulary.
///
/// Faults: `sequence-empty`, `sequence-drug-twice`, and those of plan_taper, with "plan.then[i]" before the
/// place of every later one.
Result<std::vector<Plan>> plan_sequence(const std::vector<PlanRequest>& requests, const TaperInput& input,
                                        const Formulary& formulary, const Rules& rules,
                                        const std::stop_token& stop = {});

}  // namespace evenfall
