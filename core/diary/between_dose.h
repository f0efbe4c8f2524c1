// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "model/words.h"

namespace evenfall {

class Rules;

/// A rating with where it stands between two doses.
struct IntervalRating {
    double severity = 0;  ///< 0 to 10
    bool late = false;    ///< in the second half of the interval
    double clock_h = 0;   ///< on the clock, 0 to 24
    int day = 0;          ///< stratum: ratings are permuted within their day only
    double since_h = 0;   ///< hours since the last dose
    int group = 0;        ///< symptom item: its mean is taken out before ratings are pooled
};

/// Whether symptoms rise towards the end of the interval between doses.
enum class BetweenDoseAnswer { too_few, shown, not_shown, cannot_be_separated };
template <>
struct Words<BetweenDoseAnswer> {
    static constexpr std::array<WordPair<BetweenDoseAnswer>, 4> table{
        {{BetweenDoseAnswer::too_few, "too few"},
         {BetweenDoseAnswer::shown, "shown"},
         {BetweenDoseAnswer::not_shown, "not shown"},
         {BetweenDoseAnswer::cannot_be_separated, "cannot be separated from time of day"}}};
};

struct BetweenDoseSettings {
    int permutations = 1999;
    std::uint64_t seed = 20260104;
    double least_variance_left = 0.25;  ///< of the late–early indicator, after the daily rhythm is taken out
    double p_limit = 0.05;
    int least_each = 5;  ///< ratings that must be late, and early
};

/// What the rules `between-dose` and `between-dose-limits` say.
BetweenDoseSettings between_dose_settings(const Rules& rules);

/// The between-dose statistic. Late and early stand for the halves of the interval.
struct BetweenDose {
    BetweenDoseAnswer answer = BetweenDoseAnswer::too_few;
    int ratings = 0;  ///< that could be placed between two doses
    int late = 0;
    double late_over_early =
        0.5;  ///< probability that a late rating exceeds an early one, daily rhythm taken out
    double late_over_early_raw = 0.5;  ///< the same on the ratings as they are
    double p_value = 1;  ///< one-sided, (1 + permutations at least as large) ÷ (1 + permutations)
    double variance_left =
        0;  ///< share of the indicator's variance that one 24-hour harmonic does not explain
};

/// Probability of superiority of late over early ratings after one 24-hour harmonic is taken out of the
/// ratings and out of the late–early indicator, with a p-value from seeded permutations within days. Where
/// the harmonic explains all of the indicator, the numbers are those of the ratings as they are.
BetweenDose between_dose(const std::vector<IntervalRating>& ratings, const BetweenDoseSettings& settings);

}  // namespace evenfall
