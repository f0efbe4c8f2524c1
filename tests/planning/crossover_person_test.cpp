// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover_person.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "planning/crossover.h"
#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

const SuitedAgent& agent(const std::vector<SuitedAgent>& agents, const std::string& drug) {
    return *std::find_if(agents.begin(), agents.end(),
                         [&](const SuitedAgent& each) { return each.drug == drug; });
}

/// Somebody of whom every risk was asked about and denied.
CrossoverPerson sound() {
    CrossoverPerson person;
    for (const std::string& question : kRiskWords) person.risks.answers[question] = Answer::no;
    return person;
}

std::vector<SuitedAgent> suited(const CrossoverPerson& person) {
    return suited_agents("alprazolam", person, formulary(), shipped_rules());
}

TEST(CrossoverPerson, WhereDiazepamBuildsUpAnAgentWithoutMetabolitesIsExplained) {
    const auto agents = suited(sound());
    EXPECT_TRUE(has_flag(agent(agents, "diazepam").speaks_for, "suits-longer"));
    EXPECT_TRUE(has_flag(agent(agents, "diazepam").known, "suits-builds-up"));
    EXPECT_TRUE(has_flag(agent(agents, "clonazepam").speaks_for, "suits-no-metabolite"));
    EXPECT_FALSE(has_flag(agent(agents, "clonazepam").speaks_against, "suits-builds-up"));
    EXPECT_TRUE(has_flag(agent(agents, "oxazepam").speaks_against, "suits-not-longer"));
    // 14 h against 11 h is hardly longer, and how it is cleared tells nothing of a sound liver.
    EXPECT_TRUE(has_flag(agent(agents, "lorazepam").speaks_against, "suits-not-longer"));
    EXPECT_FALSE(has_flag(agent(agents, "lorazepam").speaks_for, "suits-glucuronidated"));
    EXPECT_EQ(agents.front().drug, "clonazepam");
    EXPECT_TRUE(has_flag(agent(agents, "quazepam").speaks_against, "suits-hypnotic"));
    EXPECT_EQ(std::count_if(agents.begin(), agents.end(),
                            [](const SuitedAgent& each) { return each.drug == "alprazolam"; }),
              0);
}

/// Building up speaks against an agent for a person who bears it badly, and is a fact for everybody else.
TEST(CrossoverPerson, BuildingUpSpeaksAgainstWhereThePersonBearsItBadly) {
    EXPECT_TRUE(agent(suited(sound()), "diazepam").speaks_against.empty());
    EXPECT_FALSE(agent(suited({}), "diazepam").speaks_against.empty()) << "what was not asked may be";
    for (const char* risk : {"older age", "weak liver", "breathing trouble", "falls", "opioid"}) {
        CrossoverPerson person = sound();
        person.risks.answers[risk] = Answer::yes;
        EXPECT_TRUE(has_flag(agent(suited(person), "diazepam").speaks_against, "suits-builds-up")) << risk;
        EXPECT_FALSE(has_flag(agent(suited(person), "diazepam").known, "suits-builds-up")) << risk;
    }
}

/// Of agents alike in all else the one with the finer pieces comes first: half of a 2 mg tablet of diazepam
/// is less than any piece of clorazepate or clobazam (strengths and equivalences of the formulary).
TEST(CrossoverPerson, AmongAgentsAlikeTheFinerPiecesComeFirst) {
    const auto agents = suited(sound());
    ASSERT_TRUE(agent(agents, "diazepam").finest);
    EXPECT_EQ(*agent(agents, "diazepam").finest, mg("1"));
    const auto place = [&](const std::string& drug) { return &agent(agents, drug) - agents.data(); };
    EXPECT_LT(place("diazepam"), place("clorazepate"));
    EXPECT_LT(place("diazepam"), place("clobazam"));
    EXPECT_TRUE(has_flag(agent(agents, "clobazam").known, "suits-finest-as-diazepam"));
}

TEST(CrossoverPerson, WithAWeakLiverGlucuronidatedAgentsComeBeforeDiazepamAndFactsAreQuoted) {
    CrossoverPerson person;
    person.risks.answers["weak liver"] = Answer::yes;
    const auto agents = suited(person);
    const auto place = [&](const std::string& drug) { return &agent(agents, drug) - agents.data(); };
    EXPECT_LT(place("lorazepam"), place("diazepam"));
    EXPECT_TRUE(has_flag(agent(agents, "lorazepam").speaks_for, "suits-glucuronidated"));
    EXPECT_TRUE(has_flag(agent(agents, "diazepam").speaks_against, "suits-liver"));
    // Cirrhosis: 105.6 h against 46.6 h (the formulary's source S69).
    const auto& known = agent(agents, "diazepam").known;
    const auto fact =
        std::find_if(known.begin(), known.end(), [](const Flag& flag) { return flag.rule == "suits-fact"; });
    ASSERT_NE(fact, known.end());
    EXPECT_NE(fact->args.at("fact").find("105.6"), std::string::npos);
    EXPECT_FALSE(fact->args.at("from").empty());
}

TEST(CrossoverPerson, AnOtherMedicineIsHeldAgainstTheInteractionsOfTheNewAgent) {
    const auto flags = interactions_with(*formulary().find("diazepam"), {"Omeprazole 20 mg", "paracetamol"});
    ASSERT_EQ(flags.size(), 1U);
    EXPECT_EQ(flags[0].args.at("medicine"), "Omeprazole 20 mg");
    EXPECT_EQ(flags[0].args.at("mechanism"), "CYP2C19 inhibition");
    EXPECT_TRUE(interactions_with(*formulary().find("oxazepam"), {"omeprazole", "not"}).empty());
    CrossoverInput input;
    input.regimen.doses = {dose_at("22:00", "alprazolam", "1")};
    input.from = "alprazolam";
    input.to = "diazepam";
    input.start = day_at(2027, 1, 4);
    input.products = {solid("diazepam", "5", Cuts::halves)};
    input.other_medicines = {"fluvoxamine"};
    const auto plans = plan_crossover(input, formulary(), shipped_rules()).value();
    EXPECT_TRUE(has_flag(plans.front().stages.front().flags, "crossover-interaction"));
    EXPECT_EQ(plans.front().stages.back().diazepam->least, mg("10"));
}

TEST(CrossoverPerson, TheCaseAgainstIsStrongWhereTwoRisksMeet) {
    CrossoverPerson person;
    person.risks.answers = {{"breathing trouble", Answer::yes}, {"opioid", Answer::yes}};
    const auto flags = crossover_concerns("diazepam", person, formulary());
    ASSERT_GE(flags.size(), 3U);
    EXPECT_EQ(flags[0].rule, "crossover-breathing-opioid");
    EXPECT_TRUE(speaks_against_crossing(flags[0]));
    EXPECT_FALSE(speaks_against_crossing(flags.back()));
    person.risks.answers = {{"older age", Answer::yes}, {"falls", Answer::yes}};
    EXPECT_TRUE(has_flag(crossover_concerns("oxazepam", person, formulary()), "crossover-older-falls"));
    EXPECT_FALSE(has_flag(crossover_concerns("oxazepam", person, formulary()), "crossover-weak-liver"));
}

}  // namespace
}  // namespace evenfall
