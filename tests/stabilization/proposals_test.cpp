// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "builder.h"
#include "stabilization/split.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using stabilization::split_evenly;
using std::chrono::days;

const Regimen kTwo = regimen("lorazepam", {{8, 1.5}, {20, 1.5}});
const Product kHalfTablet{"lorazepam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}};

StabilizationInput steady_input(const Regimen& taken, std::vector<Product> products) {
    DiaryBuilder builder(41);
    builder.days_of(taken, 21, 10);
    auto input = input_of(builder.diary, {{{}, taken}});
    input.products = std::move(products);
    return input;
}

/// Trough over a day at steady state by plain Runge–Kutta steps over twenty days: an independent solver of
/// depot and parent, as percent of the average.
double trough_by_steps(const std::vector<PlannedDose>& doses, const Kinetics& kinetics) {
    const double ka = std::log(2.0) / kinetics.absorption_half_life_h,
                 ke = std::log(2.0) / kinetics.half_life_h;
    const double h = 1.0 / 60;
    double depot = 0, parent = 0, trough = 1e9, sum = 0;
    for (int minute = 0; minute < 20 * 1440; ++minute) {
        for (const PlannedDose& dose : doses)
            if (minute % 1440 == dose.at.minutes) depot += dose.amount.mg();
        if (minute >= 19 * 1440) {
            trough = std::min(trough, parent);
            sum += parent;
        }
        const auto slope = [&](double d, double p) { return std::pair{-ka * d, ka * d - ke * p}; };
        const auto [d1, p1] = slope(depot, parent);
        const auto [d2, p2] = slope(depot + h / 2 * d1, parent + h / 2 * p1);
        const auto [d3, p3] = slope(depot + h / 2 * d2, parent + h / 2 * p2);
        const auto [d4, p4] = slope(depot + h * d3, parent + h * p3);
        depot += h / 6 * (d1 + 2 * d2 + 2 * d3 + d4);
        parent += h / 6 * (p1 + 2 * p2 + 2 * p3 + p4);
    }
    return 100 * trough / (sum / 1440);
}

TEST(Proposals, SpreadTheSameAmountOverMoreDoseTimesMadeOfPiecesOnHand) {
    const auto result = check(steady_input(kTwo, {kHalfTablet}));
    ASSERT_FALSE(result.proposals.empty());
    for (const Proposal& each : result.proposals) {
        if (each.kind != ProposalKind::spacing) continue;
        Dose total;
        for (const PlannedDose& dose : each.doses) {
            EXPECT_EQ(amount_of(dose.pieces), dose.amount);
            EXPECT_GE(dose.at.minutes, 7 * 60);
            EXPECT_LE(dose.at.minutes, 23 * 60);
            total += dose.amount;
        }
        EXPECT_EQ(total, mg(3));
        EXPECT_GE(each.doses.size(), 3u);
        EXPECT_LE(each.doses.size(), 5u);
        EXPECT_GT(each.proposed.trough, each.today.trough);
        EXPECT_LT(each.proposed.fluctuation, each.today.fluctuation);
        EXPECT_NEAR(each.proposed.average, 100, 1e-6);
    }
}

TEST(Proposals, PredictTroughsThatAnIndependentSolverFinds) {
    const auto result = check(steady_input(kTwo, {kHalfTablet}));
    const Drug& drug = *formulary().find("lorazepam");
    ASSERT_FALSE(drug.kinetics.distribution);
    ASSERT_TRUE(drug.kinetics.metabolites.empty());
    ASSERT_FALSE(result.proposals.empty());
    for (const Proposal& each : result.proposals) {
        if (each.kind != ProposalKind::spacing) continue;
        EXPECT_NEAR(each.proposed.trough, trough_by_steps(each.doses, drug.kinetics), 0.05);
    }
}

TEST(Proposals, LeaveModifiedReleaseProductsOut) {
    const Product slow{"alprazolam", Form::extended_release_tablet, Dose::milligrams(1), Cuts::whole, {}};
    const auto result = check(steady_input(regimen("alprazolam", {{8, 2}}), {slow}));
    EXPECT_TRUE(std::none_of(result.proposals.begin(), result.proposals.end(),
                             [](const Proposal& each) { return each.kind == ProposalKind::spacing; }));
    EXPECT_TRUE(std::any_of(result.no_proposal.begin(), result.no_proposal.end(),
                            [](const Flag& each) { return each.rule == "proposal-modified-release"; }));
}

TEST(Proposals, SayWhenTheProductsCannotShareTheAmount) {
    const Product whole{"lorazepam", Form::tablet, Dose::milligrams(2), Cuts::whole, {}};
    const auto result = check(steady_input(regimen("lorazepam", {{8, 2}}), {whole}));
    EXPECT_TRUE(std::any_of(result.no_proposal.begin(), result.no_proposal.end(),
                            [](const Flag& each) { return each.rule == "proposal-not-makeable"; }));
}

TEST(Proposals, CrossOverStageByStageEveningFirstWithCautions) {
    auto input = steady_input(regimen("alprazolam", {{8, 0.5}, {22, 0.5}}),
                              {{"alprazolam", Form::tablet, Dose::micrograms(500), Cuts::whole, {}},
                               {"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}}});
    input.risks.answers["weak liver"] = Answer::yes;
    const auto result = check(input);
    const auto crossed =
        std::find_if(result.proposals.begin(), result.proposals.end(),
                     [](const Proposal& each) { return each.kind == ProposalKind::crossover; });
    ASSERT_NE(crossed, result.proposals.end());
    ASSERT_EQ(crossed->stages.size(), 2u);
    EXPECT_EQ(crossed->stages[0].doses[0].drug, "alprazolam");
    EXPECT_EQ(crossed->stages[0].doses[1].drug, "diazepam");
    EXPECT_EQ(crossed->stages[1].starts_after_days, 7);
    for (const PlannedDose& dose : crossed->doses) EXPECT_EQ(amount_of(dose.pieces), dose.amount);
    EXPECT_LT(crossed->stages[0].average, 100);
    EXPECT_TRUE(std::any_of(crossed->says.begin(), crossed->says.end(),
                            [](const Flag& each) { return each.rule == "crossover-against"; }));
}

TEST(Split, IsAsEvenAsThePiecesAllowWithTheRestLast) {
    const PieceTable table(std::vector<Product>{kHalfTablet}, "lorazepam", PieceWeights::from(rules()),
                           mg(3));
    EXPECT_EQ(*split_evenly(mg(3), 4, table), (std::vector<Dose>{mg(0.75), mg(0.75), mg(0.75), mg(0.75)}));
    EXPECT_EQ(*split_evenly(mg(2), 3, table), (std::vector<Dose>{mg(0.5), mg(0.75), mg(0.75)}));
    EXPECT_FALSE(split_evenly(mg(0.3), 2, table));
    EXPECT_FALSE(split_evenly(mg(0.5), 3, table));
}

TEST(Levels, FallWithMissedDosesAndMatchTheIntendedDayWhenRegular) {
    const auto regular = check(steady_input(kTwo, {}));
    ASSERT_EQ(regular.levels.hours.size(), 49u);
    for (std::size_t i = 0; i < 49; ++i) {
        EXPECT_LE(regular.levels.low[i], regular.levels.high[i]);
        EXPECT_NEAR(regular.levels.middle[i], regular.levels.intended[i], 8);
    }
    EXPECT_NEAR(regular.levels.as_intended.average, 100, 1e-6);
    auto input = steady_input(kTwo, {});
    std::erase_if(input.diary.intake, [n = 0](const Intake&) mutable { return ++n % 4 == 0; });
    const auto missed = check(input);
    EXPECT_LT(missed.levels.as_taken.average, regular.levels.as_taken.average - 10);
    EXPECT_GT(missed.levels.as_taken.fluctuation, regular.levels.as_taken.fluctuation);
}

}  // namespace
}  // namespace evenfall
