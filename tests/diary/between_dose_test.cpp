// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/between_dose.h"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "diary/statistics.h"

namespace evenfall {
namespace {

/// Ratings at random hours of two intervals a day whose beginnings wander, so that the interval is not tied
/// to the clock.
std::vector<IntervalRating> wandering(double rise, double rhythm, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0, 1);
    std::vector<IntervalRating> ratings;
    for (int day = 0; day < 28; ++day) {
        const double start = 5 + 7 * unit(random);
        for (int each = 0; each < 6; ++each) {
            const double since = 12 * unit(random);
            const double clock = std::fmod(start + since + 12 * (each % 2), 24);
            const double noise = 2 * unit(random);
            const bool late = since > 6;
            const double severity =
                3 + (late ? rise : 0) + rhythm * std::cos(2 * std::acos(-1.0) * clock / 24) + noise;
            ratings.push_back({std::round(severity), late, clock, day, since, 0});
        }
    }
    return ratings;
}

TEST(BetweenDose, IsShownWhereRatingsRiseLateInTheInterval) {
    const BetweenDose found = between_dose(wandering(2, 1, 1), {});
    EXPECT_EQ(found.answer, BetweenDoseAnswer::shown);
    EXPECT_GT(found.late_over_early, 0.75);
    EXPECT_LT(found.p_value, 0.01);
    EXPECT_EQ(found.ratings, 168);
}

TEST(BetweenDose, IsNotShownWhenTheSameRatingsAreShuffled) {
    int shown = 0;
    for (std::uint64_t seed = 0; seed < 40; ++seed) {
        auto ratings = wandering(2, 1, 1);
        std::vector<double> severities;
        for (const auto& each : ratings) severities.push_back(each.severity);
        std::mt19937_64 random(seed);
        std::shuffle(severities.begin(), severities.end(), random);
        for (std::size_t i = 0; i < ratings.size(); ++i) ratings[i].severity = severities[i];
        if (between_dose(ratings, {}).answer != BetweenDoseAnswer::not_shown) ++shown;
    }
    EXPECT_LE(shown, 6);  // 40 × 5 % = 2 expected
}

TEST(BetweenDose, IsNotFooledByADailyRhythm) {
    EXPECT_EQ(between_dose(wandering(0, 3, 3), {}).answer, BetweenDoseAnswer::not_shown);
}

TEST(BetweenDose, HoldsItsErrorRateWhereNothingIsThere) {
    int shown = 0;
    for (std::uint64_t seed = 100; seed < 300; ++seed) {
        BetweenDoseSettings settings;
        settings.permutations = 199;
        if (between_dose(wandering(0, 2, seed), settings).answer == BetweenDoseAnswer::shown) ++shown;
    }
    EXPECT_LE(shown, 20);  // 200 × 5 % = 10 expected; 20 lies over three standard deviations above
    EXPECT_GE(shown, 1);
}

TEST(BetweenDose, CannotBeSeparatedFromTheClockWhenDosesAreFixed) {
    std::vector<IntervalRating> ratings;
    for (int day = 0; day < 20; ++day)
        for (const double clock : {10.0, 14.0, 20.0, 2.0})
            ratings.push_back(
                {clock == 20.0 || clock == 2.0 ? 6.0 : 3.0, clock == 20.0 || clock == 2.0, clock, day, 0, 0});
    const BetweenDose found = between_dose(ratings, {});
    EXPECT_EQ(found.answer, BetweenDoseAnswer::cannot_be_separated);
    EXPECT_LT(found.variance_left, 0.25);
    EXPECT_EQ(found.late_over_early_raw, 1);
}

TEST(BetweenDose, GivesTheRawNumbersWhereTheClockExplainsEverything) {
    std::vector<IntervalRating> ratings;
    for (int day = 0; day < 10; ++day)
        for (const double clock : {9.0, 21.0})
            ratings.push_back({clock > 12 ? 6.0 : 3.0, clock > 12, clock, day, 0, 0});
    const BetweenDose found = between_dose(ratings, {});
    EXPECT_EQ(found.answer, BetweenDoseAnswer::cannot_be_separated);
    EXPECT_EQ(found.late_over_early, 1);
    EXPECT_LT(found.p_value, 0.01);
}

TEST(BetweenDose, SaysTooFewBeforeAnythingElse) {
    EXPECT_EQ(between_dose({}, {}).answer, BetweenDoseAnswer::too_few);
    EXPECT_EQ(between_dose({{3, true, 8, 0, 1, 0}}, {}).answer, BetweenDoseAnswer::too_few);
}

TEST(BetweenDose, MatchesTheRankStatisticOnTheRatingsAsTheyAre) {
    const auto ratings = wandering(1, 0, 5);
    std::vector<double> late, early;
    for (const auto& each : ratings) (each.late ? late : early).push_back(each.severity);
    EXPECT_NEAR(between_dose(ratings, {}).late_over_early_raw, probability_of_superiority(late, early),
                1e-12);
}

TEST(BetweenDose, RepeatsToTheLastDigit) {
    const auto ratings = wandering(0.5, 1, 9);
    EXPECT_EQ(between_dose(ratings, {}).p_value, between_dose(ratings, {}).p_value);
}

}  // namespace
}  // namespace evenfall
