// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "kinetics/constants.h"
#include "kinetics/reference.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

/// The largest error of any column, as a share of that column's peak.
double worst_error(const Kinetics& kinetics, const std::vector<TimedDose>& doses, const Grid& grid,
                   const std::string& drug = "drug") {
    const Levels found = levels(model_of(kinetics, drug), {}, doses, grid);
    const auto expected = reference::levels(kinetics, doses, grid);
    double worst = 0;
    for (std::size_t column = 0; column < expected.size(); ++column) {
        const long double peak = *std::max_element(expected[column].begin(), expected[column].end());
        if (peak <= 0) continue;
        for (std::size_t i = 0; i < grid.count; ++i) {
            const long double error = std::abs(expected[column][i] - found.values[column][i]) / peak;
            worst = std::max(worst, static_cast<double>(error));
        }
    }
    return worst;
}

}  // namespace

TEST(Exactness, LevelsAgreeWithALongDoubleReferenceForRandomConstantsAndDosings) {
    RandomKinetics random(1);
    for (int round = 0; round < 60; ++round) {
        const Kinetics kinetics = random.constants();
        EXPECT_LT(worst_error(kinetics, random.dosing(8), {0, 0.5, 8 * 48}), 1e-12) << "round " << round;
    }
}

TEST(Exactness, ALongRunOfALongLivedAgentKeepsItsExactness) {
    std::vector<TimedDose> doses;
    for (int day = 0; day < 400; ++day)
        for (const double at : {8.0, 14.5, 22.0}) doses.push_back({24.0 * day + at, 5.0 / (1 + day / 30)});
    EXPECT_LT(worst_error(long_lived(), doses, {0, 0.25, 400 * 96}, "diazepam"), 1e-11);
}

TEST(Exactness, NearlyEqualAndEqualRatesAreAsAccurateAsDistinctOnes) {
    for (const double gap : {1.0, 1e-1, 1e-2, 1e-4, 1e-6, 1e-8, 1e-10, 1e-12, 1e-14, 0.0}) {
        // All four rates of the chain run together.
        Kinetics kinetics;
        kinetics.absorption_half_life_h = 5;
        kinetics.half_life_h = 5 * (1 + gap);
        kinetics.metabolites = {metabolite("first", "drug", 0.7, 5 * (1 + 2 * gap)),
                                metabolite("second", "first", 0.6, 5 * (1 + 3 * gap)),
                                metabolite("third", "second", 0.9, 5 * (1 - gap / 3))};
        EXPECT_LT(worst_error(kinetics, {{0, 10}, {7.3, 4}, {30, 10}}, {0, 0.25, 400}), 1e-13)
            << "gap " << gap;
    }
}

TEST(Exactness, EqualRatesWithTissueAreExactToo) {
    // The metabolite's rate is the parent's terminal one, and the absorption its distribution one.
    Kinetics kinetics = long_lived();
    kinetics.metabolites[0].half_life_h = 43;
    kinetics.metabolites[1].half_life_h = 43;
    const double terminal = std::log(2) / 43;
    const double elimination = model_of(kinetics, "diazepam").elimination_per_h();
    kinetics.absorption_half_life_h = half_life(elimination + 0.9 + 0.4 - terminal);
    EXPECT_LT(worst_error(kinetics, {{0, 10}, {24, 10}}, {0, 0.25, 400}, "diazepam"), 1e-13);
}

TEST(Exactness, StiffConstantsAtTheEndsOfWhatIsTakenStayExact) {
    Kinetics kinetics = one_compartment(60, 1);
    kinetics.half_life_h = 2000;
    kinetics.metabolites = {metabolite("fast", "drug", 1, 0.05)};
    EXPECT_LT(worst_error(kinetics, {{0, 1}, {13.7, 2}}, {0, 6, 8}), 1e-10);
}

TEST(Exactness, EveryEntryOfTheTransitionIsAccurateRelativeToItself) {
    RandomKinetics random(7);
    for (int round = 0; round < 40; ++round) {
        Kinetics kinetics = random.constants();
        kinetics.lag_h = 0;
        kinetics.bioavailability = 1;
        const Model model = model_of(kinetics);
        const Matrix m = transition(model.chain(), 12);
        const auto exact = reference::later(kinetics, {1, 0, 0, 0, 0, 0}, 12);
        std::size_t row = 0;
        for (std::size_t place = 0; place < 3 + kinetics.metabolites.size(); ++place) {
            if (place == 2 && !kinetics.distribution) continue;
            EXPECT_NEAR(m.at(row, 0) / static_cast<double>(exact[place]), 1, 1e-11) << round << " " << place;
            ++row;
        }
    }
}
