// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/burden.h"

#include "response/support.h"

namespace evenfall {
namespace {

using namespace testing_response;
using response::median;
using response::robust_spread;

// By hand: sorted 1 2 2 4 10, median 2; distances 1 0 0 2 8, median 1.
TEST(RobustStatistics, AgreeWithAnExampleWorkedByHand) {
    EXPECT_DOUBLE_EQ(median({10, 2, 4, 1, 2}), 2);
    EXPECT_DOUBLE_EQ(median({1, 2, 3, 10}), 2.5);
    EXPECT_DOUBLE_EQ(robust_spread({10, 2, 4, 1, 2}), 1.4826);
    EXPECT_DOUBLE_EQ(robust_spread({3, 3, 3}), 0);
}

// The factor 1.4826 makes the median absolute deviation of normal values their standard deviation (Rousseeuw
// and Croux, J Am Stat Assoc 1993;88:1273, from memory).
TEST(RobustStatistics, EstimateTheStandardDeviationOfNormalValues) {
    std::mt19937_64 random(7);
    std::normal_distribution<double> normal(5, 2);
    std::vector<double> values(200'000);
    for (double& value : values) value = normal(random);
    EXPECT_NEAR(robust_spread(values), 2, 0.02);
}

TEST(Burden, RisesByTheDifferenceOfTheMedians) {
    const auto step = one_cut(4, 14).view().steps.front();
    ASSERT_TRUE(step.rise);
    EXPECT_DOUBLE_EQ(step.rise->before, 2);
    EXPECT_DOUBLE_EQ(step.rise->rise, 2);
    EXPECT_DOUBLE_EQ(step.rise->latest, 2);
    EXPECT_DOUBLE_EQ(step.rise->spread, 0.5) << "the least spread";
}

TEST(Burden, OneBadDayDoesNotMakeARise) {
    Course course = one_cut(2, 14);
    course.rate_at(at_clock(kFirstStep + days(4), {20 * 60}), "anxiety", 10);
    EXPECT_DOUBLE_EQ(course.view().steps.front().rise->rise, 0);
}

TEST(Burden, AnItemThatIsAddedLaterDoesNotRaiseIt) {
    Course course = one_cut(2, 14);
    course.rate("tremor", kFirstStep + days(1), kFirstStep + days(15), 9);
    const auto step = course.view().steps.front();
    EXPECT_DOUBLE_EQ(step.rise->rise, 0);
    EXPECT_FALSE(step.rise->items.contains("tremor"));
}

TEST(Burden, AnItemThatSomeDaysLeaveOutDoesNotMoveIt) {
    Course course = one_cut(2, 14);
    for (int day = -14; day <= 14; day += 3)
        course.rate_at(at_clock(kFirstStep + days(day), {12 * 60}), "poor sleep", 9);
    EXPECT_DOUBLE_EQ(course.view().steps.front().rise->rise, 0);
}

TEST(Burden, RedFlagItemsAreNeverAveraged) {
    Course course = one_cut(2, 14);
    course.rate("suicidal thoughts", kFirstStep - days(14), kFirstStep, 0);
    course.rate("suicidal thoughts", kFirstStep, kFirstStep + days(15), 8);
    const ResponseView view = course.view();
    EXPECT_DOUBLE_EQ(view.steps.front().rise->rise, 0);
    EXPECT_FALSE(view.steps.front().rise->items.contains("suicidal thoughts"));
    EXPECT_TRUE(rests_on(suggested(view, Act::call_today), "red-flag-suicidal-thoughts"));
}

TEST(Burden, TooFewRatingsAreSaidAndNotJudged) {
    Course course;
    course.step(kFirstStep, 3600)
        .rate("anxiety", kFirstStep - days(2), kFirstStep, 2)
        .at(kFirstStep + days(20));
    course.rate("anxiety", kFirstStep, kFirstStep + days(20), 6);
    const auto step = course.view().steps.front();
    EXPECT_FALSE(step.rise);
    EXPECT_EQ(step.says.front().rule, "response-few");
}

TEST(Burden, EntriesAfterTheAsOfTimeDoNotEnter) {
    Course course = one_cut(2, 14);
    const auto before = course.view().steps.front().rise->latest;
    course.rate("anxiety", kFirstStep + days(16), kFirstStep + days(40), 10);
    course.call(kFirstStep + days(30), "seizure", "yes");
    EXPECT_DOUBLE_EQ(course.view().steps.front().rise->latest, before);
    EXPECT_EQ(suggested(course.view(), Act::emergency), nullptr);
}

// RACGP 2019, chapter 5: 1 to 2 days with a short half-life, 3 to 7 with a longer one (looked up).
TEST(Lag, FollowsTheSlowestActiveSpecies) {
    const auto lag = [](const std::string& drug) {
        Course course;
        course.input.before.doses = {{{480}, drug, Dose::milligrams(10), "", ""}};
        course.input.taken = {{kFirstStep, {{{{480}, drug, Dose::milligrams(9), "", ""}}}}};
        return course.at(kFirstStep + days(5)).view().steps.front().lag_days;
    };
    EXPECT_GE(lag("lorazepam"), 1);
    EXPECT_LE(lag("lorazepam"), 2);
    EXPECT_GE(lag("diazepam"), 3);
    EXPECT_LE(lag("diazepam"), 7);
}

TEST(Steps, AreFallsOfTheDailyDoseOnly) {
    Course course;
    course.step(kFirstStep, 3600).step(kFirstStep + days(14), 3600).step(kFirstStep + days(28), 3800);
    course.step(kFirstStep + days(42), 3420).at(kFirstStep + days(60));
    const auto steps = course.view().steps;
    ASSERT_EQ(steps.size(), 2u);
    EXPECT_EQ(steps[0].cut, Share::percent(10));
    EXPECT_EQ(steps[0].days, 28) << "a hold belongs to its step; the return up ends it";
    EXPECT_EQ(steps[1].cut, Share::percent(10));
    EXPECT_EQ(steps[1].starts, kFirstStep + days(42));
}

}  // namespace
}  // namespace evenfall
