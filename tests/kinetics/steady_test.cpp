// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/steady.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "kinetics/constants.h"
#include "kinetics/share_arrived.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

double bateman_at_steady_state(double ka, double k, double t, double interval) {
    return ka / (ka - k) *
           (std::exp(-k * t) / (1 - std::exp(-k * interval)) -
            std::exp(-ka * t) / (1 - std::exp(-ka * interval)));
}

}  // namespace

TEST(Steady, OneDoseADayHasThePeakAndTroughOfTheClosedForm) {
    const double ka = 1.2, k = 0.06;
    const Model model = model_of(one_compartment(ka, k));
    const DayProfile day = day_profile(model, {{8, 4}}, 0.8);
    // tmax at steady state = ln(ka (1 - e^(-k τ)) / (k (1 - e^(-ka τ)))) / (ka - k), a closed form of any
    // textbook.
    const double tmax = std::log(ka * (1 - std::exp(-k * 24)) / (k * (1 - std::exp(-ka * 24)))) / (ka - k);
    const double scale = 4 * 24 * k;  // relative level = amount × 24 k
    EXPECT_NEAR(day.peak_at_h, 8 + tmax, 1e-6);
    EXPECT_NEAR(day.peak, scale * bateman_at_steady_state(ka, k, tmax, 24), 1e-11);
    // The trough comes just after the next dose, while absorption has not caught up with elimination… not
    // before it.
    EXPECT_NEAR(day.trough_at_h, 8, 1e-6);
    EXPECT_NEAR(day.trough, scale * bateman_at_steady_state(ka, k, 24, 24), 1e-11);
    EXPECT_EQ(day.average, 4);
    EXPECT_NEAR(day.fluctuation, (day.peak - day.trough) / 4, 1e-15);
}

TEST(Steady, TheHoursUnderAShareAreThoseOfTheClosedForm) {
    const double ka = 1.2, k = 0.12;
    const DayProfile day = day_profile(model_of(one_compartment(ka, k)), {{0, 1}}, 0.8);
    double under = 0;
    for (int i = 0; i < 240'000; ++i)
        under += 24 * k * bateman_at_steady_state(ka, k, i / 10'000.0, 24) < 0.8 ? 1 / 10'000.0 : 0;
    EXPECT_NEAR(day.hours_under, under, 5e-4);
}

TEST(Steady, MoreDoseTimesOfTheSameAmountFluctuateLess) {
    RandomKinetics random(41);
    for (int round = 0; round < 20; ++round) {
        const Model model = model_of(random.constants());
        const DayProfile once = day_profile(model, {{8, 6}}, 0.8);
        const DayProfile thrice = day_profile(model, {{0, 2}, {8, 2}, {16, 2}}, 0.8);
        EXPECT_LT(thrice.fluctuation, once.fluctuation);
        EXPECT_LE(thrice.hours_under, once.hours_under);
        EXPECT_LE(once.trough, once.average);
        EXPECT_GE(once.peak, once.average);
    }
}

TEST(Steady, NothingTakenHasNoProfile) {
    EXPECT_EQ(day_profile(model_of(one_compartment(1, 0.1)), {}, 0.8), DayProfile{});
}

TEST(Steady, TheDaysCurveEndsWhereItBegan) {
    Kinetics kinetics = long_lived();
    kinetics.lag_h = 0.4;
    for (const double at : {0.0, 8.0, 23.9}) {
        const auto curve = day_curve(model_of(kinetics, "diazepam"), {{at, 5}, {14, 5}}, 0.25);
        ASSERT_EQ(curve.size(), 97U);
        EXPECT_NEAR(curve.front(), curve.back(), 1e-11);
    }
}

TEST(Steady, ADoseAtTheStartsInstantIsNotYetTaken) {
    const Model model = model_of(one_compartment(2, 0.1));
    const Start start = steady_start(model, {{8, 5}}, 8);
    EXPECT_NEAR(start.state[0], 5 / (1 - std::exp(-48.0)) - 5, 1e-14);
    EXPECT_TRUE(start.pending.empty());
}

TEST(Steady, ADoseOnItsWayAtTheStartIsPending) {
    Kinetics kinetics = one_compartment(2, 0.1);
    kinetics.lag_h = 1;
    const Start start = steady_start(model_of(kinetics), {{7.5, 5}, {20, 1}}, 8, 100);
    EXPECT_EQ(start.pending, (std::vector<TimedDose>{{99.5, 5}}));
}

TEST(ShareArrived, IsNothingAtTheCutAndEverythingInTheEnd) {
    const Model model = model_of(long_lived(), "diazepam");
    EXPECT_EQ(share_arrived(model, {{8, 10}}, {{8, 9}}, 0), 0);
    EXPECT_EQ(share_arrived(model, {{8, 10}}, {{8, 9}}, -5), 0);
    EXPECT_NEAR(*share_arrived(model, {{8, 10}}, {{8, 9}}, 24 * 120), 1, 1e-6);
    EXPECT_EQ(share_arrived(model, {{8, 10}}, {{8, 4}, {20, 6}}, 48), std::nullopt);
}

TEST(ShareArrived, FollowsTheHalfLifeWhereThereIsOneCompartment) {
    // The share as 24 h averages: 1 - share is halved with each half-life, once absorption is over.
    const Model model = model_of(one_compartment(3, std::numbers::ln2 / 48));
    const double two = *share_arrived(model, {{0, 4}}, {{0, 3}}, 96),
                 four = *share_arrived(model, {{0, 4}}, {{0, 3}}, 192);
    EXPECT_NEAR((1 - four) / (1 - two), 0.25, 1e-9);
}

TEST(ShareArrived, IsTheDifferenceOfTheTwoRunsWhateverElseHappens) {
    // Without the cut and with it, from steady state, both with a later cut: the definition word by word.
    RandomKinetics random(43);
    for (int round = 0; round < 20; ++round) {
        const Model model = model_of(random.constants());
        const std::vector<DailyDose> before{{8, 3}, {22, 4}}, after{{8, 3}, {22, 3.5}};
        const double now = 24.0 * 9 + 13;
        const auto level = [&](const std::vector<DailyDose>& dosing) {
            auto doses = repeated(dosing, 12);
            doses.push_back({30, -1.5});  // something else that happens in both
            return relative_averages(model, steady_start(model, before), doses, {now, 1, 1}).front();
        };
        EXPECT_NEAR(*share_arrived(model, before, after, now), (level(before) - level(after)) / 0.5, 1e-10);
    }
}

TEST(ShareArrived, TheSlowEndIsTheLeastAndTheFastTheMost) {
    const auto range = share_arrived_range(long_lived(), "diazepam", {{8, 10}}, {{8, 9}}, 24 * 7);
    ASSERT_TRUE(range);
    EXPECT_LT(range->least, range->middle);
    EXPECT_LT(range->middle, range->most);
    EXPECT_GT(range->least, 0);
    EXPECT_LT(range->most, 1);
}
