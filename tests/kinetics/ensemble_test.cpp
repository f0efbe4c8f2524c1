// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/ensemble.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "kinetics/average_band.h"
#include "kinetics/constants.h"
#include "kinetics/draws.h"
#include "kinetics/patients.h"
#include "kinetics/percentiles.h"
#include "kinetics/steady.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

EnsembleRequest request_of(const Kinetics& kinetics, int patients) {
    EnsembleRequest request;
    request.agents = {
        {"diazepam", kinetics, std::nullopt, {{8, 5}, {20, 5}}, repeated({{8, 4.5}, {20.1, 4}}, 10)}};
    request.grid = {0, 1, 241};
    request.patients = patients;
    return request;
}

Ensemble run(const EnsembleRequest& request) {
    return **run_ensemble(request);
}

Kinetics with_lag() {
    Kinetics kinetics = long_lived();
    kinetics.lag_h = 0.3;
    kinetics.metabolites[0].half_life_low_h = 36;
    kinetics.metabolites[0].half_life_high_h = 200;
    return kinetics;
}

}  // namespace

TEST(Ensemble, NoSpreadGivesTheLevelItself) {
    Kinetics kinetics = with_lag();
    kinetics.half_life_low_h = kinetics.half_life_high_h = 0;
    kinetics.metabolites[0].half_life_low_h = kinetics.metabolites[0].half_life_high_h = 0;
    const EnsembleRequest request = request_of(kinetics, 70);
    const Ensemble found = run(request);
    const Model model = model_of(kinetics, "diazepam");
    const auto expected = relative_levels(model, steady_start(model, request.agents[0].before),
                                          request.agents[0].doses, request.grid);
    ASSERT_EQ(found.bands.size(), 1U);
    ASSERT_EQ(found.bands[0].p50.size(), expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_NEAR(found.bands[0].p10[i], expected[i], 1e-11);
        EXPECT_NEAR(found.bands[0].p50[i], expected[i], 1e-11);
        EXPECT_NEAR(found.bands[0].p90[i], expected[i], 1e-11);
    }
}

TEST(Ensemble, EveryPatientIsTheModelWithTheConstantsDrawn) {
    // Three patients: their own levels, computed one by one, give the percentiles.
    EnsembleRequest request = request_of(with_lag(), 3);
    request.absorption_factor = 2;
    request.scale = Scale::amounts;
    const Ensemble found = run(request);
    Draws draws(request.seed);
    std::vector<Levels> each;
    for (int i = 0; i < 3; ++i) {
        const Model model = model_of(drawn(request.agents[0].kinetics, 2, draws), "diazepam");
        each.push_back(levels(model, steady_start(model, request.agents[0].before), request.agents[0].doses,
                              request.grid));
    }
    ASSERT_EQ(found.bands.size(), each[0].columns.size());
    for (std::size_t c = 0; c < found.bands.size(); ++c) {
        EXPECT_EQ(found.bands[c].column, each[0].columns[c]);
        for (std::size_t i = 0; i < request.grid.count; ++i) {
            std::array<double, 3> values{each[0].values[c][i], each[1].values[c][i], each[2].values[c][i]};
            std::sort(values.begin(), values.end());
            EXPECT_NEAR(found.bands[c].p50[i], values[1], 1e-11);
            EXPECT_NEAR(found.bands[c].p10[i], values[0] + 0.2 * (values[1] - values[0]), 1e-11);
            EXPECT_NEAR(found.bands[c].p90[i], values[1] + 0.8 * (values[2] - values[1]), 1e-11);
        }
    }
}

TEST(Ensemble, TheSameSeedRepeatsAndAnotherDoesNot) {
    EnsembleRequest request = request_of(with_lag(), 130);
    const Ensemble once = run(request);
    EXPECT_EQ(once, run(request));
    request.seed = 2;
    EXPECT_NE(once, run(request));
}

TEST(Ensemble, ReadingEveryThirdInstantIsEveryThirdOfAll) {
    EnsembleRequest request = request_of(with_lag(), 65);
    const Ensemble all = run(request);
    request.read_every = 3;
    const Ensemble some = run(request);
    ASSERT_EQ(some.times_h.size(), 81U);
    for (std::size_t i = 0; i < some.times_h.size(); ++i) {
        EXPECT_EQ(some.times_h[i], all.times_h[3 * i]);
        EXPECT_EQ(some.bands[0].p90[i], all.bands[0].p90[3 * i]);
    }
}

TEST(Ensemble, EquivalentsOfTwoAgentsAddUp) {
    EnsembleRequest request = request_of(long_lived(), 1);
    request.scale = Scale::equivalent;
    const Dose ten = Dose::milligrams(10), one = Dose::milligrams(1);
    request.agents[0].equivalence = Equivalence{ten, ten, ten, "", {}};
    EnsembleAgent second = request.agents[0];
    second.drug = "lorazepam";
    second.kinetics = one_compartment(1.5, 0.05);
    second.equivalence = Equivalence{one, one, one, "", {}};
    request.agents.push_back(second);
    const auto both = run(request).bands;
    ASSERT_EQ(both.size(), 1U);
    EnsembleRequest first_only = request, second_only = request;
    first_only.agents.pop_back();
    second_only.agents.erase(second_only.agents.begin());
    // One patient draws the first agent's constants first; the second agent has no range.
    const auto first = run(first_only).bands, other = run(second_only).bands;
    for (std::size_t i = 0; i < both[0].p50.size(); ++i)
        EXPECT_NEAR(both[0].p50[i], first[0].p50[i] + other[0].p50[i], 1e-10);
    EXPECT_NEAR(other[0].p50.front() /
                    relative_levels(model_of(second.kinetics, "lorazepam"),
                                    steady_start(model_of(second.kinetics, "lorazepam"), second.before), {},
                                    {0, 1, 1})
                        .front(),
                10, 1e-12);
}

TEST(Ensemble, AWishToStopIsHeardAndProgressEndsAtOne) {
    std::stop_source stop;
    stop.request_stop();
    EXPECT_FALSE((*run_ensemble(request_of(with_lag(), 100), stop.get_token())).has_value());
    double last = 0;
    bool rises = true;
    (void)run_ensemble(request_of(with_lag(), 300), {}, [&](double share) {
        rises = rises && share >= last;
        last = share;
    });
    EXPECT_TRUE(rises);
    EXPECT_DOUBLE_EQ(last, 1);
}

TEST(Ensemble, WhatCannotBeRunIsRefusedWithEveryFault) {
    EnsembleRequest request = request_of(with_lag(), 10'001);
    request.scale = Scale::equivalent;
    request.agents[0].kinetics.half_life_h = 0;
    const auto result = run_ensemble(request);
    ASSERT_FALSE(result);
    EXPECT_EQ(result.faults().size(), 3U);
}

TEST(Draws, TheNormalQuantileHasTheTabulatedValues) {
    // Standard normal tables, and Wichura's own check values for p = 0.25, 0.001, 1e-20.
    EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-14);
    EXPECT_NEAR(normal_quantile(0.25), -0.6744897501960817, 1e-15);
    EXPECT_NEAR(normal_quantile(0.001), -3.090232306167814, 1e-14);
    EXPECT_NEAR(normal_quantile(1e-20), -9.262340089798408, 1e-13);
    EXPECT_EQ(normal_quantile(0.5), 0);
}

TEST(Draws, StayInTheRangeWithTheMiddleAsMedianAndRepeat) {
    Draws draws(5), again(5);
    std::vector<double> values;
    for (int i = 0; i < 20'001; ++i) {
        values.push_back(draws.within(46.6, 20, 90));
        EXPECT_EQ(values.back(), again.within(46.6, 20, 90));
    }
    std::sort(values.begin(), values.end());
    EXPECT_GE(values.front(), 20);
    EXPECT_LE(values.back(), 90);
    EXPECT_NEAR(values[10'000], 46.6, 0.5);
    // 10 % of the truncated normal lie below z = quantile(0.025 + 0.1 × 0.95) = -1.175: 46.6 ×
    // (20/46.6)^(1.175/1.96).
    EXPECT_NEAR(values[2'000], 46.6 * std::pow(20 / 46.6, 1.17499 / 1.95996), 0.6);
    // The engine is the standard's: its 10 000th number from the default seed is 9981545732273789042.
    std::mt19937_64 engine;
    engine.discard(9'999);
    EXPECT_EQ(engine(), 9981545732273789042ULL);
}

TEST(Percentiles, AreThoseOfTheSortedValues) {
    RandomKinetics random(51);
    PercentileFinder finder;
    for (std::size_t n = 1; n <= 600; ++n) {
        std::vector<double> values(n);
        // Many ties, none, a few far out, all alike, all but alike.
        for (double& value : values) {
            if (n % 5 == 0) value = std::floor(random.between(-3, 30));
            if (n % 5 == 1) value = random.between(0, 1);
            if (n % 5 == 2) value = std::exp(random.between(0, 40));
            if (n % 5 == 3) value = 7;
            if (n % 5 == 4) value = 1 + std::floor(random.between(0, 4)) * 0x1p-52;
        }
        std::vector<double> sorted = values;
        std::sort(sorted.begin(), sorted.end());
        const auto expected = [&](double share) {
            const double position = share * static_cast<double>(n - 1);
            const auto low = static_cast<std::size_t>(position);
            const double next = low + 1 < n ? sorted[low + 1] : sorted[low];
            return sorted[low] + (position - static_cast<double>(low)) * (next - sorted[low]);
        };
        const Percentiles found = finder.find(values);
        EXPECT_DOUBLE_EQ(found.p10, expected(0.1)) << n;
        EXPECT_DOUBLE_EQ(found.p50, expected(0.5)) << n;
        EXPECT_DOUBLE_EQ(found.p90, expected(0.9)) << n;
    }
}

TEST(AverageBand, IsThePercentilesOfTheExactAveragesOfTheSameVirtualPatients) {
    EnsembleRequest request = request_of(with_lag(), 40);
    request.absorption_factor = 2;
    request.grid = {24, 24, 10};
    const Ensemble found = **run_average_band(request);
    Draws draws(request.seed);
    std::vector<std::vector<double>> each;
    for (int i = 0; i < 40; ++i) {
        const Model model = model_of(drawn(request.agents[0].kinetics, 2, draws), "diazepam");
        each.push_back(relative_averages(model, steady_start(model, request.agents[0].before),
                                         request.agents[0].doses, request.grid));
    }
    PercentileFinder finder;
    for (std::size_t at = 0; at < request.grid.count; ++at) {
        std::vector<double> values;
        for (const auto& averages : each) values.push_back(averages[at]);
        const Percentiles expected = finder.find(values);
        EXPECT_EQ(found.times_h[at], request.grid.at(at));
        EXPECT_DOUBLE_EQ(found.bands[0].p10[at], expected.p10);
        EXPECT_DOUBLE_EQ(found.bands[0].p50[at], expected.p50);
        EXPECT_DOUBLE_EQ(found.bands[0].p90[at], expected.p90);
    }
    EXPECT_LT(found.bands[0].p10.back(), found.bands[0].p90.back());
}

TEST(AverageBand, StopsWhenAskedAndTellsHowFarItIs) {
    EnsembleRequest request = request_of(with_lag(), 10);
    request.grid = {24, 24, 10};
    std::vector<double> told;
    ASSERT_TRUE(*run_average_band(request, {}, [&](double share) { told.push_back(share); }));
    EXPECT_EQ(told.size(), 10U);
    EXPECT_EQ(told.back(), 1);
    std::stop_source source;
    const auto stopped =
        run_average_band(request, source.get_token(), [&](double) { source.request_stop(); });
    ASSERT_TRUE(stopped);
    EXPECT_FALSE(stopped->has_value());
    request.patients = 0;
    EXPECT_EQ(run_average_band(request).faults().front().id, "ensemble-size");
}
