// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casework/course.h"
#include "planning/taper.h"

namespace evenfall {

/// What a plan can be made from for one person.
struct PlanBase {
    Regimen start;                    ///< before the first step of the plan in force, or of the next one
    Regimen now;                      ///< in force today; `start` where nothing is known of today
    std::vector<std::string> agents;  ///< of what is taken now and before
    std::vector<Product> chosen;      ///< products that this person has or can get
    std::optional<Plan> in_force;     ///< the signed plan, where there is one
    EventId replaces;                 ///< its commitment
    int begun = 0;                    ///< signed steps that have begun by today, before any hold
    int agreed = 0;                   ///< all signed steps that can be kept; in a hold those that have begun
    std::optional<HoldStarted> hold;  ///< no plan was signed since
    Day today{};

    bool operator==(const PlanBase&) const = default;
};

/// Nothing where no regimen is recorded yet, or where nothing is taken any more.
std::optional<PlanBase> plan_base(const PatientRecord& record, const Course& course, Day today);

/// The first day on which the next reduction can be, when so many signed steps are kept: after the kept ones,
/// and not before today. In a hold: after its review, where that is still to come.
Day first_free_day(const PlanBase& base, int keep);

/// Products of an agent that may be asked for to move the floor: those of the formulary for steps, none that
/// is released slowly.
std::vector<Product> candidate_products(const Formulary& formulary, const std::string& drug);

/// The product that a flag of rule `floor-would-move` names; empty for every other flag.
std::optional<Product> product_that_moves(const Flag& flag, const std::vector<Product>& candidates);

/// The ground of a taper of `drug` from `start` with `products`: candidates and half-life from the formulary.
TaperInput taper_input(const Formulary& formulary, const std::string& drug, Regimen start,
                       std::vector<Product> products);

/// The changes that end a plan and keep the dose in force as what is taken from that day on.
std::vector<Change> end_plan(const PlanBase& base, Use use, std::string reason);

/// How the agent is used by the last regimen that was recorded.
Use use_of(const PatientRecord& record);

}  // namespace evenfall
