// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <stop_token>

#include "casework/plan_base.h"
#include "planning/by_hand.h"
#include "planning/compare.h"

namespace evenfall::ui {

/// Steps that were set by hand, by their place in the plan (0 is the first).
using HandSteps = std::map<int, HandStep>;

/// A plan to compute: values only, so that it can be computed on another thread.
struct PlanJob {
    PlanRequest request;
    TaperInput input;
    std::optional<Plan> before;  ///< the plan whose first `keep` steps stay
    int keep = 0;
    std::optional<Plan> crossing;  ///< a crossover that was chosen: its stages come first
    HandSteps by_hand;
    Prices prices;  ///< of the clinic, where it entered them
    Day today{};
};

/// The plan: the kept steps, the stages of a crossover, then the taper, with what was set by hand laid in and
/// everything after it planned from there. `request.commit_steps` steps after the kept ones are to sign.
Result<Plan> compute_plan(const PlanJob& job, const Rules& rules, std::stop_token stop);

/// A computed plan with the figures that variants are compared by.
struct PlanMade {
    Result<Plan> plan;
    VariantFigures figures;
};
PlanMade make_plan(const PlanJob& job, const Formulary& formulary, const Rules& rules, std::stop_token stop);

/// The first step after the kept ones with a smaller cut than the target, as a step set by hand. Faults:
/// those of the plan, and `adjust-not-smaller`.
Result<HandStep> smaller_next(const PlanJob& job, Share cut, const Rules& rules, std::stop_token stop);

/// What stands under a plan in one line.
struct PlanSummary {
    int stages = 0;     ///< of a crossover, before the reductions
    int steps = 0;      ///< reductions, OFF included
    int days = 0;       ///< from the first step to the last one's beginning
    Share largest_cut;  ///< OFF left out
    Dose last;          ///< the daily amount before OFF, or the one it ends at
    bool ends_off = false;
    std::optional<Day> ends_on;

    bool operator==(const PlanSummary&) const = default;
};
PlanSummary summarise(const Plan& plan);

}  // namespace evenfall::ui
