// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "planning/taper.h"

// What can become of a plan on the way and is more than another request: another pace, other products, a
// maintenance dose, a late or an early step are what `replan` is asked for. The first `keep` steps stay
// exactly as they are, but for how long the last of them lasts. Nothing here decides: the clinician signs
// what comes out. Going back up is an act of its own and is not among them.

namespace evenfall {

/// Only the next cut smaller: `next` is its target, and the plan's own target holds again after it. Faults:
/// as replan, and `adjust-not-smaller` (next not under the plan's target).
Result<Plan> with_smaller_next_cut(const Plan& plan, const Replan& change, Share next, const Rules& rules,
                                   const std::stop_token& stop = {});

/// What is to be heard before anything is planned after days without the agent (missed doses, a stop in
/// hospital): `missed-doses` always; `missed-tolerance` where the slowest active part has been gone for the
/// half-lives of that rule; `missed-short` for an agent that leaves within the hours of that rule. REQUIRES
/// days >= 1.
std::vector<Flag> after_missed(const std::string& drug, int days, const Formulary& formulary,
                               const Rules& rules);

/// Planning anew from what is taken now, after the course was broken (a stop or a change in hospital):
/// nothing of the old plan is kept but its request, and the first cut comes no sooner than one interval after
/// `from`, the day since which the regimen now is taken. Faults: `adjust-nothing-taken` (the agent is no
/// longer taken: beginning it again is a prescriber's act), and those of plan_taper.
Result<Plan> plan_from_now(const Plan& plan, const Regimen& now, Day from, const TaperInput& input,
                           const Rules& rules, const std::stop_token& stop = {});

}  // namespace evenfall
