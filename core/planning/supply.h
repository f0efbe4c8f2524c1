// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "model/person.h"
#include "model/plan.h"
#include "planning/crossover.h"
#include "planning/pieces.h"
#include "planning/price.h"
#include "rules/rules.h"

namespace evenfall {

/// A day's doses with their pieces, in force from a day on. No doses: nothing is taken.
struct DatedDoses {
    Day from{};
    std::vector<PlannedDose> doses;

    bool operator==(const DatedDoses&) const = default;
};

/// The days of a plan from the day before `from` on (its dose may be held): the starting regimen, then every
/// step, each with its pieces. Doses of other agents have pieces where the plan's products make them; where
/// they do not, they are not supplied.
/// `at_home`: what the person has; doses that name no pieces are made of that first (add_usual_pieces).
std::vector<DatedDoses> doses_of(const Plan& plan, Day from, const PieceWeights& weights,
                                 const std::vector<OnHand>& at_home = {});
/// The days of plans that follow one another (plan_sequence), each in force from its first step on.
std::vector<DatedDoses> doses_of(const std::vector<Plan>& plans, Day from, const PieceWeights& weights,
                                 const std::vector<OnHand>& at_home = {});
/// The days of a way across: what was taken before, then every stage, with the pieces of both agents.
std::vector<DatedDoses> doses_of(const CrossoverInput& input, const CrossoverPlan& crossover, Day from,
                                 const PieceWeights& weights);

/// Local rules on what may be dispensed at once and again. Zero: no limit.
struct SupplyLimits {
    int most_days = 0;    ///< of the dose then taken, in one fill (rule `fill-days`)
    int refills = 0;      ///< after the first fill, on one prescription (rule `refills`)
    int months = 0;       ///< for which one prescription is good (rule `refills`)
    int liquid_days = 0;  ///< for which an opened bottle is used (rule `liquid-life`)

    /// The rules in force; a clinic can change each of them.
    static SupplyLimits from(const Rules& rules);
    bool operator==(const SupplyLimits&) const = default;
};

/// What a fill is counted from.
struct SupplyInput {
    std::vector<DatedDoses> doses;  ///< by day, ascending
    Day from{};                     ///< first day supplied
    Day to{};                       ///< the day after the last
    int days_per_fill = 28;         ///< 1 to 365
    int reserve_days = 5;           ///< 0 to 365: held over every fill
    std::vector<OnHand> on_hand;
    SupplyLimits limits{};  ///< none, unless set
    Prices prices{};        ///< where the clinic entered them
};

/// Puts pieces on the doses of a day that have none, agent by agent, where the products make them.
void add_pieces(std::vector<PlannedDose>& doses, const std::vector<Product>& products,
                const PieceWeights& weights);

/// The same from what a person most likely takes a dose: from what is at home where that makes it, else from
/// solid products, else from any. A product at home that is none of `products` is not bought again: it counts
/// only where nothing else makes a dose.
void add_usual_pieces(std::vector<PlannedDose>& doses, const std::vector<OnHand>& at_home,
                      const std::vector<Product>& products, const PieceWeights& weights);

/// So much of a product: whole units, or millilitres of a liquid.
struct SupplyItem {
    Product product;
    int units = 0;
    Volume volume;

    bool operator==(const SupplyItem&) const = default;
};

/// One visit to the pharmacy.
struct Fill {
    Day from{};
    Day to{};                       ///< the day of the next fill
    std::vector<SupplyItem> items;  ///< to dispense; empty where what is at home is enough
    /// The first day that could not be made if the dose of the fill's day, or of the day before, were held.
    Day covers_hold_until{};
    std::vector<OnHand> left_over;  ///< at home on `to`, as planned
    std::optional<Price> cost{};    ///< of the items; empty where the price of one of them is not known
    std::vector<OnHand> too_old{};  ///< of opened liquids, thrown away before this fill
    std::vector<Flag> flags{};      ///< fill-days, refills, liquid-life

    bool operator==(const Fill&) const = default;
};

struct Supply {
    std::vector<Fill> fills;
    std::optional<Day> runs_out;    ///< with what is on hand alone: the first day that could not be made
    std::vector<OnHand> surplus{};  ///< at home on the last day that no later dose takes: to be returned

    bool operator==(const Supply&) const = default;
};

/// Whole units for each strength, fill by fill; left-over halves and quarters are carried from day to day.
/// Each fill covers the higher of the plan and of holding any dose of the fill's days to its end, both plus
/// the reserve days. Faults: `supply-range` (to not after from), `supply-days-per-fill`, `supply-reserve`,
/// `supply-no-doses`.
Result<Supply> supply_for(const SupplyInput& input);

}  // namespace evenfall
