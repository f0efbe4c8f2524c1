// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/statistics.h"

#include <cmath>

#include <gtest/gtest.h>

#include "diary/circular.h"

namespace evenfall {
namespace {

std::vector<double> degrees(std::vector<double> values) {
    for (double& value : values) value *= 4;  // one degree is four minutes
    return values;
}

// Zar, Biostatistical Analysis, the circular-mean example (from memory; recomputed by hand): R 0.82522, mean
// 98.99 degrees, circular standard deviation 35.5 degrees (2.4 of time: one degree is four minutes).
TEST(Circular, GivesZarsMeanAndSpread) {
    const ClockSpread spread = clock_spread(degrees({45, 55, 81, 96, 110, 117, 132, 154}));
    EXPECT_NEAR(spread.resultant, 0.82522, 5e-6);
    EXPECT_NEAR(*spread.mean_minutes / 4, 98.99, 0.005);
    EXPECT_NEAR(spread.sd_minutes / 4, 35.5, 0.05);
    EXPECT_EQ(spread.count, 8);
}

// Published remarks: the mean of 1 and 359 degrees is 0, not 180 (docslib.org/doc/995297); of 11 and 1
// o'clock it is 12, not 6 (bugsmapsandmath.com/2017/05).
TEST(Circular, PutsTheMeanBetweenTimesThatLieAcrossMidnight) {
    const double zero = *clock_spread(degrees({1, 359})).mean_minutes;
    EXPECT_LT(std::min(zero, 1440 - zero), 1e-9);
    const double midnight = *clock_spread({23 * 60.0, 60.0}).mean_minutes;
    EXPECT_LT(std::min(midnight, 1440 - midnight), 1e-9);
}

// Arithmetic by hand, no outside authority: 22:50, 23:10, 23:30, 00:20 have mean 23:27.4, R 0.98939,
// deviation 33.5 min.
TEST(Circular, TreatsAnEveningDoseThatSlipsPastMidnightAsOneTime) {
    const ClockSpread spread = clock_spread({1370, 1390, 1410, 20});
    EXPECT_NEAR(*spread.mean_minutes, 23 * 60 + 27.4, 0.05);
    EXPECT_NEAR(spread.resultant, 0.98939, 5e-6);
    EXPECT_NEAR(spread.sd_minutes, 33.5, 0.05);
}

TEST(Circular, NamesNoTypicalTimeWhereThereIsNone) {
    EXPECT_FALSE(clock_spread({0, 720}).mean_minutes);
    EXPECT_TRUE(std::isinf(clock_spread({0, 720}).sd_minutes));
    EXPECT_FALSE(clock_spread({}).mean_minutes);
    EXPECT_EQ(clock_spread({480, 480}).sd_minutes, 0);
}

TEST(Circular, MeasuresTheShortWayRoundTheDay) {
    EXPECT_EQ(minutes_between({1430}, {10}), 20);
    EXPECT_EQ(minutes_between({10}, {1430}), -20);
    EXPECT_EQ(minutes_between({0}, {720}), 720);
}

// Arithmetic by hand: doses at 0, 12, 24.5, 33, 48, 60 h have gaps with mean 12.0, sample deviation 2.318,
// CV 19.3 %.
TEST(Statistics, GiveTheCoefficientOfVariationOfGaps) {
    const std::vector<double> gaps = {12, 12.5, 8.5, 15, 12};
    EXPECT_DOUBLE_EQ(mean(gaps), 12);
    EXPECT_NEAR(sample_sd(gaps), 2.318, 0.0005);
    EXPECT_NEAR(coefficient_of_variation(gaps), 0.193, 0.0005);
}

TEST(Statistics, AreQuietWhereThereIsNothingToSay) {
    EXPECT_EQ(mean({}), 0);
    EXPECT_EQ(sample_sd({3}), 0);
    EXPECT_EQ(coefficient_of_variation({0, 0}), 0);
    EXPECT_EQ(slope({2, 2}, {1, 5}), 0);
    EXPECT_EQ(percentile({}, 0.5), 0);
    EXPECT_EQ(probability_of_superiority({}, {1}), 0.5);
}

TEST(Statistics, InterpolatePercentilesAndFitLines) {
    EXPECT_DOUBLE_EQ(percentile({4, 1, 3, 2}, 0.5), 2.5);
    EXPECT_DOUBLE_EQ(percentile({4, 1, 3, 2}, 0), 1);
    EXPECT_DOUBLE_EQ(percentile({4, 1, 3, 2}, 1), 4);
    EXPECT_DOUBLE_EQ(slope({0, 1, 2, 3}, {5, 7, 9, 11}), 2);
}

// Mann and Whitney's U counted by hand: of the 12 pairs 7 are won and 2 tied, U = 8.
TEST(Statistics, CountTiesAsHalfInTheRankStatistic) {
    EXPECT_DOUBLE_EQ(probability_of_superiority({3, 4, 5, 2}, {1, 3, 4}), 8.0 / 12);
    EXPECT_DOUBLE_EQ(probability_of_superiority({2, 3}, {1, 1}), 1);
    EXPECT_DOUBLE_EQ(probability_of_superiority({1, 1}, {1, 1, 1}), 0.5);
}

}  // namespace
}  // namespace evenfall
