// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/product.h"
#include "model/regimen.h"
#include "units/result.h"
#include "units/share.h"

namespace evenfall {

/// A rule that bit, with the values that fill its sentence and the entries that raised it. The sentence,
/// threshold and source stand in `resources/rules.json` under `rule`.
struct Flag {
    std::string rule;
    Args args;
    std::vector<std::string> entries;

    bool operator==(const Flag&) const = default;
};

/// How long a step lasts: `fixed` is always the interval; `even` lengthens the stay after a cut that had to
/// be larger than the target, so that ln(dose) falls at a constant pace.
enum class Pace { even, fixed };
template <>
struct Words<Pace> {
    static constexpr std::array<WordPair<Pace>, 2> table{{{Pace::even, "even"}, {Pace::fixed, "fixed"}}};
};

/// How a day's total is shared among the dose times as it falls.
enum class Shape { even, larger_at_night, dose_time_first };
template <>
struct Words<Shape> {
    static constexpr std::array<WordPair<Shape>, 3> table{{{Shape::even, "even"},
                                                           {Shape::larger_at_night, "larger at night"},
                                                           {Shape::dose_time_first, "a dose time first"}}};
};

/// What a clinician asks the planner for.
struct PlanRequest {
    std::string drug;
    Day start{};                        ///< the day of the first reduction
    Share target = Share::percent(10);  ///< of the current dose, each step; above 0, below 100 %
    Share cap = Share::percent(10);     ///< of the current dose, each step; above 0, below 100 %
    int days_per_step = 14;             ///< 1 to 365
    Pace pace = Pace::even;
    int commit_steps = 2;  ///< steps that are agreed; the rest is an outlook
    Shape shape = Shape::even;
    std::optional<ClockTime> first_dose_time;  ///< for `Shape::dose_time_first`: the one reduced first
    std::optional<Dose> end_amount;            ///< a daily maintenance amount to end at; empty: end at OFF
    std::optional<Dose> last_dose;  ///< daily amount before OFF; empty: the least that the products make
    bool test_reduction = true;     ///< the first step is the smallest useful one

    bool operator==(const PlanRequest&) const = default;
};

/// A dose with the pieces that make it.
struct PlannedDose {
    ClockTime at;
    std::string drug;
    Dose amount;
    std::vector<Piece> pieces;

    bool operator==(const PlannedDose&) const = default;
};

enum class StepStatus { committed, outlook };
template <>
struct Words<StepStatus> {
    static constexpr std::array<WordPair<StepStatus>, 2> table{
        {{StepStatus::committed, "committed"}, {StepStatus::outlook, "outlook"}}};
};

/// One step of a taper. The starting regimen is not a step; number 1 is the first reduction. The step to OFF
/// has a daily amount of zero, no doses and no days.
struct Step {
    int number = 0;
    Day starts{};
    std::optional<int> days;
    Dose daily;
    Share percent_of_last;  ///< the cut as a share of the dose before it
    StepStatus status = StepStatus::outlook;
    std::vector<PlannedDose> doses;
    std::vector<Flag> flags;

    bool operator==(const Step&) const = default;
};

/// Where the pieces run out: from `amount` a day on, every cut that can be made is over the cap.
struct Floor {
    std::optional<Dose> amount;  ///< empty: the cap can be kept to the end
    Dose smallest_cut;           ///< the smallest reduction that the pieces make there
    std::vector<Flag> says;      ///< where it is, and which product would move it and to what dose

    bool operator==(const Floor&) const = default;
};

/// A taper of one agent.
struct Plan {
    PlanRequest request;
    Regimen start;                  ///< the regimen before the first step
    std::vector<Product> products;  ///< what the pieces are made of
    std::vector<Step> steps;
    Floor floor;
    double evenness = 0;      ///< mean squared deviation of ln(dose) falls from the target; 0 is an even fall
    std::vector<Flag> flags;  ///< on the plan as a whole

    bool operator==(const Plan&) const = default;
};

}  // namespace evenfall
