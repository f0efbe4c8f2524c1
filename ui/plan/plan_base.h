// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "casework/course.h"
#include "planning/taper.h"

namespace evenfall::ui {

/// What a plan can be made from for one person.
struct PlanBase {
    Regimen start;                    ///< before the first step
    std::vector<std::string> agents;  ///< of the regimen
    std::vector<Product> chosen;      ///< products that this person has or can get
    std::optional<Plan> in_force;     ///< the signed plan, where there is one
    EventId replaces;                 ///< its commitment
    int begun = 0;                    ///< signed steps that have begun by today
    int agreed = 0;                   ///< all signed steps that can be kept
    Day today{};

    bool operator==(const PlanBase&) const = default;
};

/// Nothing where no regimen is recorded yet.
std::optional<PlanBase> plan_base(const PatientRecord& record, const Course& course, Day today);

/// The first day on which the next reduction can be, when so many signed steps are kept: after the kept ones,
/// and not before today.
Day first_free_day(const PlanBase& base, int keep);

/// A plan to compute: values only, so that it can be computed on another thread.
struct PlanJob {
    PlanRequest request;
    TaperInput input;
    std::optional<Plan> before;  ///< the plan whose first `keep` steps stay
    int keep = 0;
};

Result<Plan> compute_plan(const PlanJob& job, const Rules& rules, std::stop_token stop);

/// What stands under a plan in one line.
struct PlanSummary {
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
