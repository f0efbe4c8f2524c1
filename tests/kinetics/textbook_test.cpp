// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "kinetics/constants.h"
#include "kinetics/steady.h"

// Closed forms and named textbook figures. A dose straight into the blood is written as a state of the
// parent. BOOM: D.W.A. Bourne, "Basic Pharmacokinetics" (course PHAR 7633, University of Oklahoma),
// boomer.org/c/p4. WAG: J.G. Wagner's accumulation ratios as tabulated in textbooks. GARR94: E.R. Garrett,
// The Bateman function revisited, J Pharmacokinet Biopharm 1994;22:103-128. EPK-M: metabolite kinetics
// chapter of an open PK text.

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

State in_blood(double mg) {
    State state{};
    state[1] = mg;
    return state;
}

/// The instant of the highest value of a column, to the grid's step.
double time_of_peak(const Levels& found, std::size_t column) {
    const auto& values = found.values[column];
    return found.grid.at(
        static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin()));
}

/// Peak and trough of a dose of `mg` into the blood every `interval_h`, long repeated.
std::pair<double, double> boluses(const Model& model, double mg, double interval_h) {
    State state{};
    double peak = 0;
    for (int i = 0; i < 400; ++i) {
        state[1] += mg;
        peak = state[1];
        state = state_at(model, {0, state, {}}, {}, interval_h);
    }
    return {peak, state[1]};
}

}  // namespace

TEST(Textbook, RepeatedDosesIntoTheBloodReachThePublishedPeakAndTrough) {
    // BOOM 14: half-life 4 h, 100 mg every 6 h, V 10 L: peak 15.5 mg/L, trough 5.48 mg/L
    // (exact 15.469, 5.469).
    const auto [peak, trough] = boluses(model_of(one_compartment(2, std::numbers::ln2 / 4)), 100, 6);
    EXPECT_NEAR(peak / 10, 15.469, 0.0005);
    EXPECT_NEAR(trough / 10, 5.469, 0.0005);
    EXPECT_NEAR(peak / 100, 1 / (1 - std::exp(-std::numbers::ln2 / 4 * 6)), 1e-12);  // accumulation 1.547
    // Fluctuation of repeated boluses is k × interval exactly; average = dose / (clearance × interval).
    const double average = 100 / (std::numbers::ln2 / 4 * 10) / 6;
    EXPECT_NEAR(average, 9.618, 0.0005);
    EXPECT_NEAR((peak - trough) / 10 / average, std::numbers::ln2 / 4 * 6, 1e-12);
}

TEST(Textbook, ADoseEachHalfLifeAccumulatesTwofold) {
    // BOOM 14: accumulation 2, and the trough at plateau is the first dose's peak.
    const auto [peak, trough] = boluses(model_of(one_compartment(2, std::numbers::ln2 / 8)), 10, 8);
    EXPECT_NEAR(peak, 20, 1e-10);
    EXPECT_NEAR(trough, 10, 1e-10);
}

TEST(Textbook, AccumulationOverIntervalsInHalfLivesIsTheTabulatedOne) {
    // WAG: at five half-lives 1.032; the others by the closed form 1/(1 - 2^-n).
    const std::vector<std::pair<double, double>> table{{0.25, 6.285}, {0.5, 3.414}, {1, 2},    {2, 1.333},
                                                       {3, 1.143},    {4, 1.067},   {5, 1.032}};
    for (const auto& [half_lives, ratio] : table)
        EXPECT_NEAR(boluses(model_of(one_compartment(3, std::numbers::ln2 / 10)), 1, 10 * half_lives).first,
                    ratio, 0.0006);
}

TEST(Textbook, AbsorptionGivesThePublishedPeakTimes) {
    // BOOM 8: ka 3, 0.6, 0.125 /h give peaks at 1, 2.75, 6.25 h (with k 0.2/h, inferred:
    // 0.967, 2.747, 6.267).
    for (const auto& [absorption, published] :
         std::vector<std::pair<double, double>>{{3, 1}, {0.6, 2.75}, {0.125, 6.25}}) {
        const Levels found =
            levels(model_of(one_compartment(absorption, 0.2)), {}, {{0, 10}}, {0, 0.001, 12001});
        EXPECT_NEAR(time_of_peak(found, 1), published, 0.035);
        EXPECT_NEAR(time_of_peak(found, 1), std::log(absorption / 0.2) / (absorption - 0.2), 0.001);
    }
}

TEST(Textbook, TheBatemanFunctionIsMetAtEveryInstant) {
    // F 1, D 10, V 70, ka 1.5, half-life 12 h: peak 0.12539 at 2.258 h; 0.07429 at 12 h; 0.03714 at 24 h.
    const double k = std::numbers::ln2 / 12, ka = 1.5;
    const Levels found = levels(model_of(one_compartment(ka, k)), {}, {{0, 10}}, {0, 0.1, 481});
    for (std::size_t i = 0; i < found.grid.count; ++i) {
        const double t = found.grid.at(i);
        EXPECT_NEAR(found.values[1][i], 10 * ka / (ka - k) * (std::exp(-k * t) - std::exp(-ka * t)), 1e-12);
    }
    EXPECT_NEAR(found.values[1][120] / 70, 0.07429, 5e-6);
    EXPECT_NEAR(found.values[1][240] / 70, 0.03714, 5e-6);
}

TEST(Textbook, EqualAbsorptionAndEliminationTakeTheLimitForm) {
    // GARR94: C = F D k t / V e^(-kt), peak at 1/k of D/e.
    const Levels found = levels(model_of(one_compartment(0.25, 0.25)), {}, {{0, 10}}, {0, 0.5, 97});
    for (std::size_t i = 0; i < found.grid.count; ++i) {
        const double t = found.grid.at(i);
        EXPECT_NEAR(found.values[1][i], 10 * 0.25 * t * std::exp(-0.25 * t), 1e-13);
    }
    EXPECT_DOUBLE_EQ(time_of_peak(found, 1), 4);
    EXPECT_NEAR(found.values[1][8], 10 / std::numbers::e, 1e-13);
}

TEST(Textbook, BioavailabilityScalesTheLevelAndLeavesThePeakTime) {
    // BOOM 8: a change of F alone leaves tpeak.
    Kinetics half = one_compartment(0.6, 0.2);
    half.bioavailability = 0.5;
    const Grid grid{0, 0.01, 1000};
    const Levels whole = levels(model_of(one_compartment(0.6, 0.2)), {}, {{0, 10}}, grid);
    const Levels part = levels(model_of(half), {}, {{0, 10}}, grid);
    EXPECT_DOUBLE_EQ(time_of_peak(whole, 1), time_of_peak(part, 1));
    for (std::size_t i = 0; i < grid.count; ++i)
        EXPECT_NEAR(part.values[1][i], whole.values[1][i] / 2, 1e-14);
}

TEST(Textbook, AMetaboliteOfADoseIntoTheBloodFollowsItsClosedForm) {
    // EPK-M: D 10, k 0.10/h, km 0.05/h: tmax = ln(k/km)/(k - km) = 13.863 h, amount 5.
    Kinetics kinetics = one_compartment(2, 0.10);
    kinetics.metabolites = {metabolite("m", "drug", 1, half_life(0.05))};
    const Levels found = levels(model_of(kinetics), {0, in_blood(10), {}}, {}, {0, 0.001, 20001});
    EXPECT_NEAR(time_of_peak(found, 2), 13.863, 0.0011);
    EXPECT_NEAR(*std::max_element(found.values[2].begin(), found.values[2].end()), 5, 1e-8);
    // "The slower of formation and elimination sets the tail": the ratio over one hour is e^-km in the end.
    const double late = state_at(model_of(kinetics), {0, in_blood(10), {}}, {}, 300)[2];
    const double later = state_at(model_of(kinetics), {0, in_blood(10), {}}, {}, 301)[2];
    EXPECT_NEAR(later / late, std::exp(-0.05), 1e-6);
}

TEST(Textbook, AMetaboliteAsFastAsItsParentTakesTheLimitForm) {
    Kinetics kinetics = one_compartment(2, 0.1);
    kinetics.metabolites = {metabolite("m", "drug", 1, half_life(0.1))};
    const Levels found = levels(model_of(kinetics), {0, in_blood(10), {}}, {}, {0, 1, 100});
    for (std::size_t i = 0; i < found.grid.count; ++i) {
        const double t = found.grid.at(i);
        EXPECT_NEAR(found.values[2][i], 0.1 * 10 * t * std::exp(-0.1 * t), 1e-13);
    }
}

TEST(Textbook, AChainFollowsBatemansGeneralSolution) {
    // H. Bateman 1910: N_n(t) = N_1(0) Π k_i Σ e^(-k_i t) / Π (k_j - k_i).
    const std::vector<double> k{0.9, 0.11, 0.035, 0.3, 0.06};
    Kinetics kinetics = one_compartment(k[0], k[1]);
    kinetics.metabolites = {metabolite("a", "drug", 1, half_life(k[2])),
                            metabolite("b", "a", 1, half_life(k[3])),
                            metabolite("c", "b", 1, half_life(k[4]))};
    for (const double t : {0.5, 3.0, 12.0, 48.0, 120.0}) {
        const State found = state_at(model_of(kinetics), {}, {{0, 10}}, t);
        for (std::size_t n = 0; n < k.size(); ++n) {
            double product = 10, sum = 0;
            for (std::size_t i = 0; i < n; ++i) product *= k[i];
            for (std::size_t i = 0; i <= n; ++i) {
                double divisor = 1;
                for (std::size_t j = 0; j <= n; ++j)
                    if (j != i) divisor *= k[j] - k[i];
                sum += std::exp(-k[i] * t) / divisor;
            }
            EXPECT_NEAR(found[n], product * sum, 1e-11) << "species " << n << " at " << t;
        }
    }
}

TEST(Textbook, TheApproachToSteadyStateIsHalvedEachHalfLife) {
    // 1 - 2^-n: 0.5, 0.75, 0.875, 0.9375, 0.96875 after 1 … 5 half-lives (any textbook; about five
    // half-lives).
    const Model model = model_of(one_compartment(3, std::numbers::ln2 / 24));
    const std::vector<DailyDose> doses{{0, 8}};
    const std::vector<double> averages = relative_averages(model, {}, repeated(doses, 10), {24, 24, 6});
    const double first = averages[0];
    for (int n = 1; n < 6; ++n)
        EXPECT_NEAR((8 - averages[static_cast<std::size_t>(n)]) / (8 - first), std::pow(0.5, n), 1e-4);
}

TEST(Textbook, TheTerminalHalfLifeWithTissueIsTheOneThatWasAskedFor) {
    const Model model = model_of(long_lived(), "diazepam");
    const double late = state_at(model, {}, {{0, 10}}, 400)[1],
                 later = state_at(model, {}, {{0, 10}}, 443)[1];
    EXPECT_NEAR(later / late, 0.5, 1e-12);
    // One dose is felt for hours although the half-life is long: much of it moves to the tissues within the
    // day. Without the tissues the level would hardly have fallen.
    Kinetics without = long_lived();
    without.distribution.reset();
    const auto left_at_eight_hours = [](const Model& of) {
        const Levels day = levels(of, {}, {{0, 10}}, {0, 0.25, 97});
        return day.values[1][32] / *std::max_element(day.values[1].begin(), day.values[1].end());
    };
    EXPECT_LT(left_at_eight_hours(model), 0.6);
    EXPECT_GT(left_at_eight_hours(model_of(without, "diazepam")), 0.85);
}
