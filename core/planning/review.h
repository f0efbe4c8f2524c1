// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "model/plan.h"
#include "rules/rules.h"

namespace evenfall {

/// One entry of a schedule made elsewhere: never merged with its neighbours, numbered from 0.
struct ReviewedStep {
    int number = 0;
    Day starts{};
    std::optional<int> days;                ///< to the next entry; empty for the last
    std::map<std::string, Dose> daily;      ///< by agent; agents of the whole schedule, zero where not taken
    std::optional<DiazepamRange> diazepam;  ///< where every agent taken has an equivalence
    std::optional<Share>
        percent_of_last;  ///< how far below the entry before; negative where it rises; empty at 0
    std::optional<Share>
        percent_of_first;  ///< the same fall as a share of the first entry's amount; empty at 0

    bool operator==(const ReviewedStep&) const = default;
};

/// A rule that an entry breaks.
struct Finding {
    Flag flag;
    int step = 0;

    bool operator==(const Finding&) const = default;
};

struct Review {
    std::vector<ReviewedStep> steps;
    std::vector<Finding> findings;  ///< by step, then in the order of the rules named in review_schedule
    bool keeps_the_cap = true;      ///< no cut over the cap, the stop left aside

    bool operator==(const Review&) const = default;
};

/// What a schedule is judged against.
struct ReviewInput {
    std::vector<DatedRegimen> schedule;
    std::string drug;  ///< the agent that is tapered; empty: the only agent, or the total
    Share cap = Share::percent(10);
    std::vector<Product> products;  ///< where empty, nothing is said of what can be made
    std::optional<Day> until;       ///< the day after the schedule's last day, where known
    std::optional<Day> today{};     ///< where given, a first change before it is named
};

/// Judges a schedule by the planner's rules: `cut-over-cap`, `fall-over-two-weeks`, `percent-of-first` (falls
/// by equal amounts, a share of the first dose), `dose-time-rises`, `dose-time-dropped`, `not-makeable`,
/// `skipped-day` (entries without the agent between others with it), `stop`, and of whole days `total-rises`,
/// `redistributed`, `step-interval`, `start-in-past`, `two-agents-fall`, `no-equivalence`. A dose time that
/// is moved is no rise: it is held against the one that it stands for. With several agents the total in
/// diazepam-equivalent (usual) and each agent are held against the cap, and while one rises as another falls
/// only the total. Faults: `review-empty`, `review-order`, `review-cap-range`, `review-drug-unknown`.
Result<Review> review_schedule(const ReviewInput& input, const Formulary& formulary, const Rules& rules);

}  // namespace evenfall
