// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <stop_token>
#include <vector>

#include "model/plan.h"
#include "planning/pieces.h"
#include "rules/rules.h"

namespace evenfall {

/// What a taper is planned from, beside the request.
struct TaperInput {
    Regimen start;                  ///< of the whole day; agents other than the request's stay as they are
    std::vector<Product> products;  ///< on hand or to be had; those of other agents are left out
    std::vector<Product>
        candidates;  ///< products that might move the floor (other strengths, finer cuts, liquids)
    double slowest_half_life_h = 0;  ///< of the drug's slowest active species; 0 where not known
    std::optional<Day> today{};      ///< where given, a first step before it is flagged (`start-in-past`)
};

/// The least-cost taper (maths: Taper): an exact shortest path over the daily regimens that keep the shape,
/// from the start to the last dose, then OFF where no maintenance amount is asked for. Only the request's
/// drug is reduced; doses of other agents stand in each step unchanged, with no pieces. `Step::daily` is of
/// the request's drug.
///
/// Faults (all of them, at fields of "plan", "regimen" and "products"): `plan-no-drug`,
/// `plan-drug-not-in-regimen`, `plan-target-range`, `plan-cap-range`, `plan-target-over-cap`,
/// `plan-days-range`, `plan-commit-range`, `plan-no-doses`, `plan-too-many-dose-times`,
/// `plan-dose-times-order`, `plan-dose-time-twice`, `plan-dose-not-positive`, `plan-first-dose-time`,
/// `plan-no-product`, `plan-too-many-products`, `plan-grid-too-fine`, `plan-start-not-makeable`,
/// `plan-end-not-below`, `plan-end-not-makeable`, `plan-last-not-below`, `plan-last-not-makeable`,
/// `plan-end-and-last`, `plan-end-not-reached`, `plan-modified-release`, `plan-stopped` (the stop token).
Result<Plan> plan_taper(const PlanRequest& request, const TaperInput& input, const Rules& rules,
                        const std::stop_token& stop = {});

/// What changes when a plan is planned again from one of its steps.
struct Replan {
    int keep = 0;         ///< steps that stay as they are: 1 to this number; 0 keeps none
    Day resume{};         ///< the day of the next reduction; a later day is a hold of the last kept step
    PlanRequest request;  ///< for the rest; `start` and `test_reduction` count only where nothing is kept
    TaperInput input;     ///< `start` is that of the plan
};

/// The kept steps unchanged (the last of them as long as the hold makes it), the rest planned anew, of which
/// `request.commit_steps` are committed. With nothing changed the same plan comes out. Faults as plan_taper,
/// and `replan-no-such-step`, `replan-resume-early`.
Result<Plan> replan(const Plan& plan, const Replan& change, const Rules& rules,
                    const std::stop_token& stop = {});

}  // namespace evenfall
