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

/// The share of all orders within two days of three ratings whose rank statistic is at least as large as the
/// one seen.
double exact_p_value(const std::vector<IntervalRating>& ratings) {
    const auto statistic = [&](const std::vector<int>& order) {
        std::vector<double> late, early;
        for (std::size_t i = 0; i < ratings.size(); ++i)
            (ratings[i].late ? late : early).push_back(ratings[static_cast<std::size_t>(order[i])].severity);
        return probability_of_superiority(late, early);
    };
    const double seen = statistic({0, 1, 2, 3, 4, 5});
    int as_large = 0, orders = 0;
    std::vector<int> first = {0, 1, 2};
    do {
        std::vector<int> second = {3, 4, 5};
        do {
            std::vector<int> order = first;
            order.insert(order.end(), second.begin(), second.end());
            as_large += statistic(order) >= seen - 1e-12;
            ++orders;
        } while (std::next_permutation(second.begin(), second.end()));
    } while (std::next_permutation(first.begin(), first.end()));
    return static_cast<double>(as_large) / orders;
}

TEST(BetweenDose, GivesThePValueOfAllOrdersWithinDays) {
    const std::vector<std::vector<double>> days = {
        {1, 2, 5, 2, 3, 3}, {1, 4, 3, 2, 3, 1}, {5, 2, 2, 4, 4, 1}};
    for (const auto& severities : days) {
        std::vector<IntervalRating> ratings;  // all at one clock time: no rhythm to take out
        for (std::size_t i = 0; i < 6; ++i)
            ratings.push_back({severities[i], i == 2 || i > 3, 12, i < 3 ? 0 : 1, 0, 0});
        BetweenDoseSettings settings;
        settings.least_each = 1;
        settings.permutations = 19999;
        EXPECT_NEAR(between_dose(ratings, settings).p_value, exact_p_value(ratings), 0.015);
    }
}

TEST(BetweenDose, RepeatsToTheLastDigit) {
    const auto ratings = wandering(0.5, 1, 9);
    EXPECT_EQ(between_dose(ratings, {}).p_value, between_dose(ratings, {}).p_value);
}

}  // namespace
}  // namespace evenfall
