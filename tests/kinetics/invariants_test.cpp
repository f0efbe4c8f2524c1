// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "kinetics/constants.h"
#include "kinetics/steady.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

void expect_near(const State& a, const State& b, double scale, int round) {
    for (std::size_t i = 0; i < kMostStates; ++i)
        EXPECT_NEAR(a[i], b[i], scale) << "place " << i << " round " << round;
}

State column_values(const Levels& found, std::size_t i) {
    State state{};
    for (std::size_t column = 0; column < found.values.size(); ++column)
        state[column] = found.values[column][i];
    return state;
}

}  // namespace

TEST(Invariants, LevelsOfDosesAddUp) {
    RandomKinetics random(11);
    for (int round = 0; round < 50; ++round) {
        const Model model = model_of(random.constants());
        const auto doses = random.dosing(5);
        const Grid grid{0, 1, 140};
        const Levels together = levels(model, {}, doses, grid);
        std::vector<std::vector<double>> sum(model.size(), std::vector<double>(grid.count));
        for (const TimedDose& dose : doses) {
            const Levels alone = levels(model, {}, {dose}, grid);
            for (std::size_t c = 0; c < sum.size(); ++c)
                for (std::size_t i = 0; i < grid.count; ++i) sum[c][i] += alone.values[c][i];
        }
        for (std::size_t c = 0; c < sum.size(); ++c)
            for (std::size_t i = 0; i < grid.count; ++i) EXPECT_NEAR(together.values[c][i], sum[c][i], 1e-12);
    }
}

TEST(Invariants, TheOrderOfTheDosesMakesNoDifferenceAtAll) {
    RandomKinetics random(12);
    for (int round = 0; round < 50; ++round) {
        const Model model = model_of(random.constants());
        auto doses = random.dosing(4);
        const Levels once = levels(model, {}, doses, {0, 0.25, 400});
        std::reverse(doses.begin(), doses.end());
        std::rotate(doses.begin(), doses.begin() + static_cast<std::ptrdiff_t>(doses.size() / 3),
                    doses.end());
        EXPECT_EQ(once, levels(model, {}, doses, {0, 0.25, 400}));
    }
}

TEST(Invariants, TheGridMakesNoDifference) {
    RandomKinetics random(13);
    for (int round = 0; round < 50; ++round) {
        const Model model = model_of(random.constants());
        const auto doses = random.dosing(4);
        const Levels fine = levels(model, {}, doses, {0, 0.25, 385}),
                     coarse = levels(model, {}, doses, {0, 8, 13});
        for (std::size_t i = 0; i < coarse.grid.count; ++i) {
            expect_near(column_values(coarse, i), column_values(fine, i * 32), 1e-12, round);
            expect_near(column_values(coarse, i), state_at(model, {}, doses, coarse.grid.at(i)), 1e-12,
                        round);
        }
    }
}

TEST(Invariants, ARunCutInTwoIsTheWholeRun) {
    RandomKinetics random(14);
    for (int round = 0; round < 50; ++round) {
        const Model model = model_of(random.constants());
        const auto doses = random.dosing(4);
        const double cut = 41.0 + 0.37;
        const Start second{cut, state_at(model, {}, doses, cut), {}};
        // No dose arrives at the cut itself, so that none is counted twice.
        expect_near(state_at(model, second, doses, 90), state_at(model, {}, doses, 90), 1e-12, round);
    }
}

TEST(Invariants, NothingIsMadeAndNothingIsLost) {
    // What has not been eliminated for good is in the gut, the blood, the tissue or a metabolite.
    RandomKinetics random(15);
    for (int round = 0; round < 50; ++round) {
        Kinetics kinetics = random.constants();
        kinetics.metabolites = {metabolite("a", "drug", 1, 50), metabolite("b", "a", 1, 2000)};
        const Model model = model_of(kinetics);
        const State state = state_at(model, {}, {{0, 10}}, 30);
        double sum = 0;
        for (const double amount : state) sum += amount;
        const double in_all = 10 * kinetics.bioavailability;
        EXPECT_LE(sum, in_all * (1 + 1e-12));
        // Lost is only what left the last one: b's rate times the time at most.
        EXPECT_GE(sum, in_all * std::exp(-30 * std::log(2) / 2000) * (1 - 1e-12));
    }
}

TEST(Invariants, NoLevelIsNegative) {
    RandomKinetics random(16);
    for (int round = 0; round < 50; ++round) {
        const Levels found = levels(model_of(random.constants()), {}, random.dosing(5), {0, 0.25, 960});
        for (const auto& column : found.values)
            EXPECT_GE(*std::min_element(column.begin(), column.end()), 0) << "round " << round;
    }
}

TEST(Invariants, TheSteadyStateIsWhereALongRunEnds) {
    RandomKinetics random(17);
    for (int round = 0; round < 40; ++round) {
        const Kinetics kinetics = random.constants();
        const Model model = model_of(kinetics);
        const std::vector<DailyDose> doses{{7.5, 3}, {13, 1}, {22.25, 5}};
        const double clock = random.below(2) == 0 ? 0 : 7.5;
        const Start steady = steady_start(model, doses, clock);
        // The same doses for long before, none at the start itself.
        std::vector<TimedDose> before = repeated(doses, 600, -600 * 24, clock);
        const State there = state_at(model, {-600 * 24.0 - 24, {}, {}}, before, 0);
        State expected = there;
        // A dose that arrives exactly now is in `there` but not in the start.
        for (const TimedDose& dose : steady.pending)
            if (std::abs(dose.time_h + model.lag_h()) < 1e-9)
                expected[0] -= dose.mg * model.bioavailability();
        expect_near(steady.state, expected, 1e-9, round);
        // And a further day, with what was pending, ends where it began.
        const State after = state_at(model, steady, repeated(doses, 1, 0, clock), 24 - 1e-6);
        Start later = steady_start(model, doses, clock, 0);
        later.pending.clear();
        for (std::size_t i = 1; i < model.size(); ++i) EXPECT_NEAR(after[i], later.state[i], 1e-4) << round;
    }
}

TEST(Invariants, ConstantDosingAveragesItsDailyAmountInTheRelativeLevel) {
    RandomKinetics random(18);
    for (int round = 0; round < 40; ++round) {
        const Model model = model_of(random.constants());
        const std::vector<DailyDose> doses{{8, 2.5}, {20, 4}};
        const auto averages =
            relative_averages(model, steady_start(model, doses), repeated(doses, 5), {24, 0.5, 100});
        for (const double average : averages) EXPECT_NEAR(average, 6.5, 1e-10) << "round " << round;
    }
}
