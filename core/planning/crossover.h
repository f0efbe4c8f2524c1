// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "model/person.h"
#include "model/plan.h"
#include "rules/rules.h"

namespace evenfall {

/// What a crossover is planned from.
struct CrossoverInput {
    Regimen regimen;  ///< as taken now; agents other than `from` stay as they are
    std::string from;
    std::string to;
    Day start{};                    ///< the day of the first stage
    int days_per_stage = 7;         ///< 1 to 90; laid out beside those of rule `crossover-plans`
    std::vector<Product> products;  ///< of both agents; without any of `from`, its doses have no pieces
    RiskScreen risks;
    /// Dose times in the order in which they are replaced; those not named follow, latest first. Empty: the
    /// evening first.
    std::vector<ClockTime> order;
    std::vector<std::string> other_medicines{};  ///< by name; held against the formulary's interactions
};

/// What is moved in one stage: a whole dose time, or about half of one.
enum class Portion { whole, half };

/// What is taken from a day on.
struct CrossoverStage {
    int number = 0;
    Day starts{};
    std::map<std::string, Dose> daily;  ///< by agent; the old one's is zero in the last stage
    std::vector<PlannedDose> doses;
    std::vector<Flag> flags;
    /// All agents together as diazepam: at least, usual and most by their published equivalences. Empty where
    /// one of them has none.
    std::optional<DiazepamRange> diazepam{};

    bool operator==(const CrossoverStage&) const = default;
};

/// How far, how long and when the modelled 24 h average leaves what it was before.
struct Excursion {
    double percent = 0;      ///< depth under, or height over, the average before the crossover, in % of it
    int days = 0;            ///< days beyond the limit of rule `crossover-band`
    std::optional<Day> day;  ///< of the furthest; empty where the average never leaves 100 % that way

    bool operator==(const Excursion&) const = default;
};

/// One way across.
struct CrossoverPlan {
    Portion portion = Portion::whole;
    int days_per_stage = 7;
    std::vector<CrossoverStage> stages;
    /// The plan carries the usual conversion; these are two readings of the same doses. The dip reads them as
    /// if the conversion had been the one that gives the least diazepam, with the fast end of every
    /// half-life; the overshoot as if it had been the one that gives the most, with the slow end. Neither is
    /// a forecast: they are how far the published tables and half-lives let the truth lie to either side.
    Excursion dip;
    Excursion overshoot;
    Day steady_on{};  ///< five half-lives of the slowest active species after the last stage began

    bool operator==(const CrossoverPlan&) const = default;
};

/// Lays out ways across from one agent to another (maths: Crossover), best first: by overshoot, then dip
/// (both to a tenth of a per cent), then number of stages, then days. There is no pass mark, and no overlap:
/// each stage's new dose is the usual equivalence of what is replaced there, rounded to pieces (the lower of
/// two that are equally near). What speaks against crossing for this person stands first among the flags of
/// the first stage.
///
/// Faults: `crossover-drug-unknown`, `crossover-same-drug`, `crossover-drug-not-in-regimen`,
/// `crossover-no-equivalence`, `crossover-days-range`, `crossover-no-product`, `crossover-grid-too-fine`,
/// `crossover-old-not-makeable`, `crossover-new-not-makeable` (no pieces near enough; names the nearest),
/// `crossover-dose-times` (the same dose time twice, or a dose that is not above zero), `crossover-stopped`,
/// and those of `kinetics::Model::make`.
Result<std::vector<CrossoverPlan>> plan_crossover(const CrossoverInput& input, const Formulary& formulary,
                                                  const Rules& rules, const std::stop_token& stop = {});

}  // namespace evenfall
