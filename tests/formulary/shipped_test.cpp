// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/shipped.h"

#include <set>

namespace evenfall {
namespace {

using testing::mg;
using testing::shipped;

const ListedProduct* product_of(const std::string& drug, const std::string& name) {
    for (const auto& listed : shipped().find(drug)->products)
        if (product_name(listed.product) == name) return &listed;
    return nullptr;
}

TEST(ShippedFormulary, HoldsTheSeventeenAgents) {
    const std::set<std::string> expected = {
        "alprazolam", "chlordiazepoxide", "clobazam",  "clonazepam",  "clorazepate", "diazepam",
        "estazolam",  "flurazepam",       "lorazepam", "oxazepam",    "quazepam",    "temazepam",
        "triazolam",  "zolpidem",         "zopiclone", "eszopiclone", "zaleplon"};
    std::set<std::string> present;
    for (const auto& [name, drug] : shipped().drugs) present.insert(name);
    EXPECT_EQ(present, expected);
    EXPECT_EQ(shipped().find("no such agent"), nullptr);
}

TEST(ShippedFormulary, GivesEveryValueASource) {
    const auto known = [](const Provenance& provenance) {
        return shipped().sources.contains(provenance.source);
    };
    for (const auto& [name, drug] : shipped().drugs) {
        SCOPED_TRACE(name);
        for (const auto& listed : drug.products)
            EXPECT_TRUE(known(listed.strength) && known(listed.cutting_provenance));
        for (const auto& published : drug.equivalence->published) EXPECT_TRUE(known(published.provenance));
        for (const auto& [field, provenance] : drug.kinetics.provenance)
            EXPECT_TRUE(known(provenance)) << field;
        EXPECT_EQ(drug.kinetics.provenance.size(), drug.kinetics.distribution ? 6U : 5U);
        for (const auto& metabolite : drug.kinetics.metabolites) EXPECT_TRUE(known(metabolite.provenance));
        for (const auto& interaction : drug.interactions) EXPECT_TRUE(known(interaction.provenance));
        for (const auto& fact : drug.facts) EXPECT_TRUE(known(fact.provenance)) << fact.label;
        EXPECT_TRUE(known(drug.doses_per_day.provenance));
    }
    for (const auto& [id, source] : shipped().sources) EXPECT_FALSE(source.citation.empty()) << id;
}

TEST(ShippedFormulary, MarksEachValueFromMemory) {
    for (const auto& [name, drug] : shipped().drugs)
        for (const auto& fact : drug.facts)
            if (fact.provenance.source == "M") {
                EXPECT_TRUE(fact.provenance.from_memory) << name << " " << fact.label;
            }
    EXPECT_TRUE(shipped().find("diazepam")->kinetics.provenance.at("distribution").from_memory);
    EXPECT_FALSE(shipped().find("diazepam")->kinetics.provenance.at("half_life_h").from_memory);
}

TEST(ShippedFormulary, ShowsAllGroupsOnEachReferencePage) {
    for (const auto& [name, drug] : shipped().drugs) {
        std::set<std::string> groups;
        for (const auto& fact : drug.facts) {
            groups.insert(fact.group);
            EXPECT_FALSE(fact.value.empty()) << name << " " << fact.label;
        }
        for (const char* group : {"class", "codes", "kinetics", "metabolites", "equivalence", "dosing",
                                  "liver", "older age", "urine screen"})
            EXPECT_TRUE(groups.contains(group)) << name << " " << group;
    }
}

// Institute for Safe Medication Practices, list of error-prone abbreviations: micrograms are written mcg.
TEST(ShippedFormulary, NeverWritesASignThatIsReadAsMilligrams) {
    for (const auto& [name, drug] : shipped().drugs)
        for (const auto& fact : drug.facts)
            for (const char* sign : {"ug/", " ug", "µg", "μg"})
                EXPECT_EQ((fact.value + fact.provenance.note).find(sign), std::string::npos)
                    << name << " " << fact.value;
}

TEST(ShippedFormulary, PrintsAndReadsEveryStrengthUnchanged) {
    for (const auto& [name, drug] : shipped().drugs)
        for (const auto& [product, strength, scored, cutting, provenance, device, for_steps, code] :
             drug.products) {
            EXPECT_EQ(mg(print_mg_digits(product.strength)), product.strength);
            EXPECT_EQ(parse_dose(print_dose(product.strength), "").value(), product.strength);
            EXPECT_EQ(product.drug, name);
        }
}

TEST(ShippedFormulary, NamesEveryProductOnce) {
    for (const auto& [name, drug] : shipped().drugs) {
        std::set<std::string> names;
        for (const auto& listed : drug.products)
            if (listed.for_steps) {
                const std::string product = product_name(listed.product);
                EXPECT_TRUE(names.insert(product).second) << product;
            }
        EXPECT_FALSE(names.empty()) << name;
    }
}

TEST(ShippedFormulary, CutsOnlyWhatCanBeCut) {
    EXPECT_EQ(product_of("alprazolam", "alprazolam 2 mg tablet")->product.cuts, Cuts::quarters);
    EXPECT_EQ(product_of("alprazolam", "alprazolam 0.5 mg tablet")->product.cuts, Cuts::halves);
    EXPECT_EQ(product_of("alprazolam", "alprazolam 1 mg extended-release tablet")->product.cuts, Cuts::whole);
    EXPECT_EQ(product_of("clonazepam", "clonazepam 0.125 mg orally disintegrating tablet")->product.cuts,
              Cuts::whole);
    EXPECT_EQ(product_of("eszopiclone", "eszopiclone 1 mg tablet")->product.cuts, Cuts::whole);
    EXPECT_EQ(product_of("oxazepam", "oxazepam 10 mg capsule")->product.cuts, Cuts::whole);
    EXPECT_EQ(product_of("diazepam", "diazepam 1 mg/mL oral solution")->product.measure,
              Volume::nanolitres(100'000));
    EXPECT_EQ(product_of("lorazepam", "lorazepam 2 mg/mL oral concentrate")->product.measure,
              Volume::nanolitres(250'000));
}

TEST(ShippedFormulary, KeepsCombinationProductsOutOfSteps) {
    int combinations = 0;
    for (const auto& listed : shipped().find("chlordiazepoxide")->products)
        combinations += listed.for_steps ? 0 : 1;
    EXPECT_EQ(combinations, 3);
}

// Half-lives of the parent as the sources print them: alprazolam 11.2 h (6.3 to 26.9), US label text;
// diazepam 46.6 h, about 20 h at age 20 to 90 h at age 80, Klotz et al., J Clin Invest 1975;55:347;
// clonazepam 39 h, Crevoisier et al. 2003.
TEST(ShippedFormulary, HoldsPublishedHalfLives) {
    const auto& alprazolam = shipped().find("alprazolam")->kinetics;
    EXPECT_EQ(alprazolam.half_life_h, 11.2);
    EXPECT_EQ(alprazolam.half_life_low_h, 6.3);
    EXPECT_EQ(alprazolam.half_life_high_h, 26.9);
    const auto& diazepam = shipped().find("diazepam")->kinetics;
    EXPECT_EQ(diazepam.half_life_h, 46.6);
    EXPECT_EQ(diazepam.half_life_low_h, 20);
    EXPECT_EQ(diazepam.half_life_high_h, 90);
    EXPECT_EQ(shipped().find("clonazepam")->kinetics.half_life_h, 39);
}

TEST(ShippedFormulary, FindsTheSlowestActiveSpecies) {
    EXPECT_EQ(slowest_half_life_h(shipped().find("diazepam")->kinetics), 62);
    EXPECT_EQ(slowest_half_life_h(shipped().find("lorazepam")->kinetics), 12);
    EXPECT_EQ(slowest_half_life_h(shipped().find("clorazepate")->kinetics), 62);
    Kinetics silent;
    silent.half_life_h = 5;
    silent.metabolites = {{"inactive", "parent", 1, 500, 500, 500, 0, {}}};
    EXPECT_EQ(slowest_half_life_h(silent), 5);
}

TEST(ShippedFormulary, NeverDosesAHypnoticByDay) {
    for (const auto& [name, drug] : shipped().drugs)
        if (drug.hypnotic) {
            EXPECT_EQ(drug.doses_per_day.most, 1) << name;
            EXPECT_EQ(drug.missed_dose_rule, "missed-dose-night") << name;
        }
    EXPECT_TRUE(shipped().find("zolpidem")->hypnotic);
    EXPECT_FALSE(shipped().find("clonazepam")->hypnotic);
    EXPECT_EQ(shipped().find("clonazepam")->doses_per_day.most, 4);
}

TEST(ShippedFormulary, SeesAThousandfoldSlip) {
    const Drug& lorazepam = *shipped().find("lorazepam");
    EXPECT_TRUE(looks_like_unit_slip(lorazepam, mg("1000")));
    EXPECT_TRUE(looks_like_unit_slip(lorazepam, mg("0.001")));
    EXPECT_FALSE(looks_like_unit_slip(lorazepam, mg("1")));
    EXPECT_FALSE(looks_like_unit_slip(lorazepam, mg("20")));
    EXPECT_FALSE(looks_like_unit_slip(lorazepam, mg("60")));
    EXPECT_FALSE(looks_like_unit_slip(lorazepam, Dose()));
    EXPECT_FALSE(looks_like_unit_slip(Drug{}, mg("1000")));
}

}  // namespace
}  // namespace evenfall
