// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <fstream>
#include <limits>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "kinetics/constants.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

bool refused(const Kinetics& kinetics, const std::string& id, const std::string& place) {
    const auto model = Model::make(kinetics, "diazepam", "kinetics.diazepam");
    return !model && std::any_of(model.faults().begin(), model.faults().end(), [&](const Fault& fault) {
        return fault.id == id && fault.place == "kinetics.diazepam." + place;
    });
}

}  // namespace

TEST(Constants, ZeroNegativeEnormousAndNotANumberAreRefusedInEveryField) {
    const double nan = std::numeric_limits<double>::quiet_NaN(),
                 infinite = std::numeric_limits<double>::infinity();
    for (const double bad : {nan, infinite, -infinite, -1.0, 1e9, -0.5}) {
        const auto with = [&](const std::function<void(Kinetics&)>& change) {
            Kinetics kinetics = long_lived();
            change(kinetics);
            return kinetics;
        };
        const std::string id = "kinetics-number";
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.absorption_half_life_h = bad; }), id,
                            "absorption_half_life_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.half_life_h = bad; }), id, "half_life_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.half_life_low_h = bad; }), id, "half_life_low_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.half_life_high_h = bad; }), id, "half_life_high_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.lag_h = bad; }), id, "lag_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.bioavailability = bad; }), id, "bioavailability"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.distribution->back_per_h = bad; }), id,
                            "distribution.back_per_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.distribution->to_tissue_per_h = bad; }), id,
                            "distribution.to_tissue_per_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.metabolites[1].half_life_h = bad; }), id,
                            "metabolites[1].half_life_h"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.metabolites[0].formed_fraction = bad; }), id,
                            "metabolites[0].formed_fraction"));
        EXPECT_TRUE(refused(with([&](Kinetics& k) { k.metabolites[0].relative_potency = bad; }), id,
                            "metabolites[0].relative_potency"));
    }
    Kinetics zero = long_lived();
    zero.half_life_h = zero.absorption_half_life_h = zero.bioavailability = 0;
    for (const std::string field : {"half_life_h", "absorption_half_life_h", "bioavailability"})
        EXPECT_TRUE(refused(zero, "kinetics-number", field));
}

TEST(Constants, EveryFaultIsReportedNotTheFirstOnly) {
    Kinetics kinetics = long_lived();
    kinetics.half_life_h = -1;
    kinetics.lag_h = 99;
    kinetics.metabolites[1].from = "nobody";
    const auto model = Model::make(kinetics, "diazepam");
    ASSERT_FALSE(model);
    EXPECT_EQ(model.faults().size(), 3U);
}

TEST(Constants, AMiddleOutsideItsRangeIsRefused) {
    Kinetics kinetics = long_lived();
    kinetics.half_life_h = 71;
    EXPECT_TRUE(refused(kinetics, "kinetics-range", "half_life_h"));
}

TEST(Constants, AHalfLifeTooShortForTheTissueIsRefusedAtTheShortEndToo) {
    Kinetics kinetics = long_lived();
    kinetics.half_life_low_h = 1.7;  // 0.693 / 0.4 per h is 1.73 h
    EXPECT_TRUE(refused(kinetics, "kinetics-tissue", "half_life_h"));
}

TEST(Constants, MetabolitesMustHaveAKnownOriginANameOfTheirOwnAndAddUpToNoMoreThanAll) {
    Kinetics kinetics = long_lived();
    kinetics.metabolites[0].from = "oxazepam";
    EXPECT_TRUE(refused(kinetics, "kinetics-metabolite-from", "metabolites[0].from"));
    kinetics = long_lived();
    kinetics.metabolites[1].name = "nordiazepam";
    EXPECT_TRUE(refused(kinetics, "kinetics-metabolite-name", "metabolites[1].name"));
    kinetics = long_lived();
    kinetics.metabolites[1].from = "diazepam";
    EXPECT_TRUE(refused(kinetics, "kinetics-fractions", "metabolites"));
    kinetics = long_lived();
    kinetics.metabolites.resize(4, metabolite("x", "oxazepam", 0, 5));
    EXPECT_TRUE(refused(kinetics, "kinetics-metabolites", "metabolites"));
}

TEST(Constants, ColumnsAreNamedInTheOrderOfTheChain) {
    EXPECT_EQ(model_of(long_lived(), "diazepam").columns(),
              (std::vector<std::string>{"diazepam in gut", "diazepam", "diazepam in tissue", "nordiazepam",
                                        "oxazepam"}));
}

TEST(Constants, EveryFaultHasASentenceInBothLanguages) {
    const std::vector<std::string> ids{
        "kinetics-number",          "kinetics-range",           "kinetics-tissue",    "kinetics-metabolites",
        "kinetics-metabolite-from", "kinetics-metabolite-name", "kinetics-fractions", "ensemble-size",
        "ensemble-equivalence"};
    for (const std::string language : {"en", "es"}) {
        std::ifstream file(EVENFALL_SOURCE_DIR "/resources/texts/" + language + "/kinetics.json");
        const auto texts = nlohmann::json::parse(file);
        for (const std::string& id : ids) EXPECT_TRUE(texts.contains(id)) << language << " " << id;
    }
}
