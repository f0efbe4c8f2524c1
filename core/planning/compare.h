// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "formulary/formulary.h"
#include "model/plan.h"
#include "planning/price.h"

// Variants of a plan side by side: what each asks of the person, in the same figures.

namespace evenfall {

/// The week in which the modelled level falls the most.
struct HardestWeek {
    Day from{};          ///< its first day
    double percent = 0;  ///< how far its average lies under that of the week before, in % of the week before

    bool operator==(const HardestWeek&) const = default;
};

/// What a plan asks of the person, from its first step until OFF (left out) or, where it ends at a lower
/// dose, through the stay on that dose.
struct VariantFigures {
    int steps = 0;            ///< reductions, the one to OFF counted
    int days = 0;             ///< from the first step to the beginning of the last
    std::optional<Day> ends;  ///< the day of OFF, or of the dose it ends at; empty for a plan of no steps
    bool ends_off = false;
    Dose last;                   ///< the daily amount before OFF, or the one it ends at
    Share largest_cut;           ///< of the dose before it, OFF left out
    int over_cap = 0;            ///< steps flagged `cut-over-cap`
    int dose_times_dropped = 0;  ///< steps flagged `dose-time-dropped`
    /// Empty where the agent's kinetics are not known. OFF is left out: there the level falls to nothing
    /// whatever was planned before it.
    std::optional<HardestWeek> hardest_week;
    int units_cut = 0;          ///< tablets that have to be cut, left-over halves and quarters used up first
    int days_with_cutting = 0;  ///< days whose doses hold a half or a quarter
    int units = 0;              ///< whole tablets and capsules that are needed, all strengths together
    Volume liquid;              ///< of all liquids together
    std::vector<Product> products;  ///< different products that have to be held, in the order of products
    std::optional<Price> cost;      ///< empty where the price of one of them is not known

    bool operator==(const VariantFigures&) const = default;
};

/// The figures of one plan. Pure: the plan is taken as it stands, and only its own agent is counted.
VariantFigures figures_of(const Plan& plan, const Formulary& formulary, const Prices& prices = {});

/// The same for up to any number of variants, in their order.
std::vector<VariantFigures> compare_plans(std::span<const Plan> plans, const Formulary& formulary,
                                          const Prices& prices = {});

}  // namespace evenfall
