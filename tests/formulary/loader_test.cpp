// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "formulary/shipped.h"

namespace evenfall {
namespace {

using nlohmann::json;

json sound() {
    return json::parse(R"({
      "version": "1",
      "sources": {"S": {"citation": "c", "address": "", "date": "", "kind": "label", "note": ""}},
      "drugs": {"agent": {
        "class": "benzodiazepine",
        "products": [{"form": "tablet", "strength_mg": "0.5", "cuts": "halves",
                      "strength_from": {"source": "S"}, "cutting_from": {"source": "S"}}],
        "equivalence": {"usual_mg": "1", "least_diazepam_mg": "2", "most_diazepam_mg": "0.5", "usual_source": "S",
                        "published": [{"low_mg": "0.5", "high_mg": "2", "kind": "equivalence table", "source": "S"}]},
        "kinetics": {"absorption_half_life_h": 0.5, "half_life_h": 20, "half_life_range_h": [10, 30],
                     "bioavailability": 0.9,
                     "metabolites": [{"name": "child", "from": "agent", "formed_fraction": 1, "half_life_h": 50,
                                      "half_life_range_h": [40, 60], "relative_potency": 1, "source": "S"}],
                     "provenance": {"absorption_half_life_h": {"source": "S"}, "lag_h": {"source": "S"},
                                    "half_life_h": {"source": "S"}, "half_life_range_h": {"source": "S"},
                                    "bioavailability": {"source": "S"}}},
        "doses_per_day": {"usual_low": 2, "usual_high": 3, "most": 4, "source": "S"},
        "missed_dose_rule": "missed-dose-long"}}})");
}

Faults faults_of(const json& file) {
    const auto parsed = parse_formulary(file.dump(), "own.json");
    return parsed ? Faults{} : parsed.faults();
}

/// The faults as "id at place".
std::vector<std::string> said(const json& file) {
    std::vector<std::string> said;
    for (const Fault& fault : faults_of(file)) said.push_back(fault.id + " at " + fault.place);
    return said;
}

json with(const std::string& pointer, const json& value) {
    json file = sound();
    file[json::json_pointer(pointer)] = value;
    return file;
}

using Said = std::vector<std::string>;

TEST(FormularyLoader, TakesASoundFile) {
    EXPECT_EQ(said(sound()), Said{});
}

TEST(FormularyLoader, ReportsAllFaultsAtOnce) {
    json file = sound();
    json& drug = file["drugs"]["agent"];
    drug["kinetics"]["half_life_h"] = -1;
    drug["kinetics"]["bioavailability"] = 1.5;
    drug["products"][0]["strength_mg"] = "1,5";
    drug["equivalence"]["published"][0]["source"] = "nowhere";
    drug.erase("missed_dose_rule");
    EXPECT_EQ(said(file), (Said{"amount-comma at drugs.agent.products[0].strength_mg",
                                "formulary-source-unknown at drugs.agent.equivalence.published[0].source",
                                "json-not-above at drugs.agent.kinetics.half_life_h",
                                "json-not-above at drugs.agent.kinetics.bioavailability",
                                "json-missing at drugs.agent.missed_dose_rule"}));
}

TEST(FormularyLoader, NamesTheNearestKnownKey) {
    const auto faults = faults_of(with("/drugs/agent/kinetics/half_live_h", 3));
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(faults[0].id, "json-key-unknown");
    EXPECT_EQ(faults[0].place, "drugs.agent.kinetics.half_live_h");
    EXPECT_EQ(faults[0].args.at("nearest"), "half_life_h");
}

TEST(FormularyLoader, RefusesNumbersThatCannotBe) {
    for (const json& bad : {json(0), json(-3), json("20"), json(nullptr), json(true)})
        EXPECT_EQ(faults_of(with("/drugs/agent/kinetics/absorption_half_life_h", bad)).size(), 1U) << bad;
    EXPECT_EQ(said(with("/drugs/agent/kinetics/lag_h", -1)),
              Said{"json-too-small at drugs.agent.kinetics.lag_h"});
    EXPECT_EQ(said(with("/drugs/agent/doses_per_day/most", 1e9)),
              Said{"json-not-whole at drugs.agent.doses_per_day.most"});
    EXPECT_EQ(said(with("/drugs/agent/doses_per_day/most", 18446744073709551615ULL)),
              Said{"json-out-of-range at drugs.agent.doses_per_day.most"});
    EXPECT_EQ(said(with("/drugs/agent/label_maximum_mg", "-4")),
              Said{"amount-sign at drugs.agent.label_maximum_mg"});
}

TEST(FormularyLoader, RefusesRangesUpsideDown) {
    const std::string kinetics = "drugs.agent.kinetics.";
    EXPECT_EQ(said(with("/drugs/agent/kinetics/half_life_range_h", {30, 10})),
              Said{"formulary-range-order at " + kinetics + "half_life_range_h"});
    EXPECT_EQ(said(with("/drugs/agent/kinetics/half_life_range_h", {0, 10})),
              Said{"formulary-range-order at " + kinetics + "half_life_range_h"});
    EXPECT_EQ(said(with("/drugs/agent/kinetics/half_life_range_h", {25, 30})),
              Said{"formulary-half-life-outside at " + kinetics + "half_life_h"});
    EXPECT_EQ(said(with("/drugs/agent/equivalence/usual_mg", "3")),
              Said{"formulary-equivalence-ends at drugs.agent.equivalence.usual_mg"});
    EXPECT_EQ(said(with("/drugs/agent/equivalence/published/0/low_mg", "3")),
              Said{"formulary-equivalence-order at drugs.agent.equivalence.published[0].low_mg"});
    EXPECT_EQ(said(with("/drugs/agent/equivalence/published/0/high_mg", "2 mg")),
              Said{"amount-not-a-number at drugs.agent.equivalence.published[0].high_mg"});
    EXPECT_EQ(said(with("/drugs/agent/doses_per_day/usual_low", 4)),
              Said{"formulary-doses-order at drugs.agent.doses_per_day"});
}

TEST(FormularyLoader, RefusesAnEquivalenceOfZero) {
    const auto faults = said(with("/drugs/agent/equivalence/most_diazepam_mg", "0"));
    EXPECT_EQ(faults, Said{"formulary-amount-zero at drugs.agent.equivalence.most_diazepam_mg"});
}

TEST(FormularyLoader, RefusesAMetaboliteFromNowhere) {
    const std::string first = "drugs.agent.kinetics.metabolites[0].";
    EXPECT_EQ(said(with("/drugs/agent/kinetics/metabolites/0/from", "agnet")),
              Said{"formulary-metabolite-unknown at " + first + "from"});
    EXPECT_EQ(said(with("/drugs/agent/kinetics/metabolites/0/from", "child")),
              Said{"formulary-metabolite-unknown at " + first + "from"});
    EXPECT_EQ(said(with("/drugs/agent/kinetics/metabolites/0/name", "agent")),
              Said{"formulary-metabolite-twice at " + first + "name"});
    json file = sound();
    json& metabolites = file["drugs"]["agent"]["kinetics"]["metabolites"];
    for (int i = 0; i < 3; ++i) metabolites.push_back(metabolites[0]);
    EXPECT_EQ(said(file), Said{"json-list-too-long at drugs.agent.kinetics.metabolites"});
}

TEST(FormularyLoader, RefusesProductsThatCannotBe) {
    EXPECT_EQ(said(with("/drugs/agent/products/0/form", "capsule")),
              Said{"formulary-cannot-cut at drugs.agent.products[0].cuts"});
    EXPECT_EQ(said(with("/drugs/agent/products/0/form", "pill")),
              Said{"json-word-unknown at drugs.agent.products[0].form"});
    EXPECT_EQ(said(with("/drugs/agent/products/0/measure_ml", "0.1")),
              Said{"formulary-measure at drugs.agent.products[0].measure_ml"});
    EXPECT_EQ(said(with("/drugs/agent/products/0/strength_mg", "0.000001")),
              Said{"formulary-cut-too-fine at drugs.agent.products[0].cuts"});
    EXPECT_EQ(said(with("/drugs/agent/products/0/strength_mg_per_ml", "1")),
              Said{"formulary-strength at drugs.agent.products[0].strength_mg_per_ml"});
    json liquid = sound();
    liquid["drugs"]["agent"]["products"][0] = {{"form", "oral solution"},
                                               {"strength_mg_per_ml", "1"},
                                               {"cuts", "whole"},
                                               {"strength_from", {{"source", "S"}}},
                                               {"cutting_from", {{"source", "S"}}}};
    EXPECT_EQ(said(liquid), Said{"formulary-measure at drugs.agent.products[0].measure_ml"});
    liquid["drugs"]["agent"]["products"][0]["measure_ml"] = "0.05";
    EXPECT_EQ(said(liquid), Said{});
}

TEST(FormularyLoader, RefusesEveryWrongKindWithoutHarm) {
    const json whole = sound().flatten();
    for (const auto& [pointer, was] : whole.items())
        for (const json& bad :
             {json::array(), json::object(), json(nullptr), json(-1), json(std::string(9'999, 'x'))}) {
            json file = sound();
            file[json::json_pointer(pointer)] = bad;
            for (const Fault& fault : faults_of(file)) EXPECT_LT(fault.place.size(), 200U) << pointer;
        }
}

TEST(FormularyLoader, MeetsHostileTextsBeforeParsing) {
    const auto id = [](const std::string& text) {
        return parse_formulary(text, "f.json").faults().front().id;
    };
    EXPECT_EQ(id(std::string(1'000'000, '[')), "json-too-deep");
    EXPECT_EQ(id("{\"a\":" + std::string(100, '{')), "json-broken");
    EXPECT_EQ(id(""), "json-broken");
    EXPECT_EQ(id("[]"), "json-not-an-object");
    EXPECT_EQ(id("{\"version\": NaN}"), "json-broken");
    EXPECT_EQ(id("{\"version\": 1e999}"), "json-broken");
    EXPECT_EQ(id("{\"version\": \"1\", \"version\": \"2\"}"), "json-key-twice");
    EXPECT_EQ(id(std::string((33U << 20), ' ')), "json-too-large");
    EXPECT_EQ(id("{\"version\": \"\xff\xfe\"}"), "json-broken");
    EXPECT_EQ(id("\xef\xbb\xbf{}"), "json-missing");
}

TEST(FormularyLoader, SaysWhatItCannotOpen) {
    EXPECT_EQ(load_formulary("/no/such/file.json").faults().front().id, "file-unreadable");
    EXPECT_EQ(load_formulary("/").faults().front().id, "file-unreadable");
    EXPECT_EQ(load_formulary("/dev/zero").faults().front().id, "json-too-large");
}

}  // namespace
}  // namespace evenfall
