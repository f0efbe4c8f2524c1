// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/by_hand.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kStart = day_at(2027, 1, 4);

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

/// Clonazepam 1 mg at 08:00 and 1.5 mg at 21:00, in quarters of 0.5 mg.
Plan clonazepam() {
    Plan plan;
    plan.request.drug = "clonazepam";
    plan.start.doses = {dose_at("08:00", "clonazepam", "1"), dose_at("21:00", "clonazepam", "1.5")};
    plan.products = {solid("clonazepam", "0.5", Cuts::quarters)};
    return plan;
}

HandStep evening(const char* amount, Day on = kStart) {
    return {on, {dose_at("08:00", "clonazepam", "1"), dose_at("21:00", "clonazepam", amount)}, 14};
}

std::vector<std::string> rules_of(const Step& step) {
    std::vector<std::string> rules;
    for (const Flag& flag : step.flags) rules.push_back(flag.rule);
    return rules;
}

TEST(ByHand, AStepHasPiecesThatMakeItAndItsShareOfTheDoseBefore) {
    const Plan plan = with_hand_step(clonazepam(), 0, evening("1.25"), shipped_rules()).value();
    ASSERT_EQ(plan.steps.size(), 1U);
    const Step& step = plan.steps[0];
    EXPECT_EQ(step.daily, Dose::micrograms(2250));
    EXPECT_EQ(step.percent_of_last, Share::percent(10));
    for (const PlannedDose& dose : step.doses) EXPECT_EQ(amount_of(dose.pieces), dose.amount);
    EXPECT_TRUE(rules_of(step).empty());
}

TEST(ByHand, ACutOverTheCapIsFlagged) {
    const Plan plan = with_hand_step(clonazepam(), 0, evening("1.125"), shipped_rules()).value();
    const auto rules = rules_of(plan.steps[0]);
    EXPECT_NE(std::ranges::find(rules, "cut-over-cap"), rules.end());
}

TEST(ByHand, ADoseTimeThatRisesWhileTheDayFallsIsFlagged) {
    const HandStep hand{
        kStart, {dose_at("08:00", "clonazepam", "1.125"), dose_at("21:00", "clonazepam", "1.125")}, 14};
    const Plan plan = with_hand_step(clonazepam(), 0, hand, shipped_rules()).value();
    const auto rules = rules_of(plan.steps[0]);
    EXPECT_NE(std::ranges::find(rules, "dose-time-rises"), rules.end());
}

TEST(ByHand, AZeroDoseEndsItsDoseTime) {
    const HandStep hand{
        kStart, {dose_at("08:00", "clonazepam", "0"), dose_at("21:00", "clonazepam", "1.5")}, 14};
    const Plan plan = with_hand_step(clonazepam(), 0, hand, shipped_rules()).value();
    ASSERT_EQ(plan.steps[0].doses.size(), 1U);
    const auto rules = rules_of(plan.steps[0]);
    EXPECT_NE(std::ranges::find(rules, "dose-time-dropped"), rules.end());
}

TEST(ByHand, WhatNoPieceMakesIsRefusedWithTheNearestAmounts) {
    const auto refused = with_hand_step(clonazepam(), 0, evening("1.3"), shipped_rules());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().id, "hand-not-makeable");
    EXPECT_EQ(refused.faults().front().args.at("below"), "1.25 mg");
    EXPECT_EQ(refused.faults().front().args.at("above"), "1.375 mg");
}

TEST(ByHand, AStepCannotBeginBeforeTheOneBeforeIt) {
    const Plan one = with_hand_step(clonazepam(), 0, evening("1.375"), shipped_rules()).value();
    const auto refused = with_hand_step(one, 1, evening("1.25", kStart), shipped_rules());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().id, "hand-early");
}

TEST(ByHand, NothingAtAllIsNoStep) {
    const auto refused = with_hand_step(clonazepam(), 0, {kStart, {}, 14}, shipped_rules());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().id, "hand-nothing");
}

TEST(ByHand, AStepThatGoesBackUpKeepsTheStepsBeforeIt) {
    Plan plan = with_hand_step(clonazepam(), 0, evening("1.25"), shipped_rules()).value();
    const Step before = plan.steps[0];
    plan = with_hand_step(plan, 1, evening("1.5", kStart + days(10)), shipped_rules()).value();
    EXPECT_EQ(plan.steps[0].doses, before.doses);
    EXPECT_EQ(plan.steps[0].days, 10);
    EXPECT_EQ(plan.steps[1].daily, Dose::micrograms(2500));
    EXPECT_LT(plan.steps[1].percent_of_last, Share());
}

/// Alprazolam 0.5 mg, 0.5 mg and 1 mg to diazepam, by whole dose times and weeks.
CrossoverInput alprazolam() {
    CrossoverInput input;
    input.regimen.doses = {dose_at("08:00", "alprazolam", "0.5"), dose_at("14:00", "alprazolam", "0.5"),
                           dose_at("22:00", "alprazolam", "1")};
    input.from = "alprazolam";
    input.to = "diazepam";
    input.start = kStart;
    input.products = {solid("alprazolam", "0.5", Cuts::halves), solid("diazepam", "5", Cuts::halves),
                      solid("diazepam", "2", Cuts::halves)};
    return input;
}

CrossoverPlan first_of_three_stages(const CrossoverInput& input) {
    const auto ways = plan_crossover(input, formulary(), shipped_rules()).value();
    for (const CrossoverPlan& way : ways)
        if (way.stages.size() == 3) return way;
    throw std::logic_error("no way of three stages");
}

PlanRequest to_diazepam() {
    PlanRequest request;
    request.drug = "diazepam";
    request.commit_steps = 2;
    return request;
}

TEST(ByHand, ACrossoversStagesAreStepsWithBothAgents) {
    const CrossoverInput input = alprazolam();
    const CrossoverPlan way = first_of_three_stages(input);
    const Plan plan = plan_of_crossover(to_diazepam(), input, way);
    EXPECT_EQ(crossover_stages(plan), 3);
    EXPECT_EQ(plan.steps[0].doses, way.stages[0].doses);
    EXPECT_EQ(plan.steps[0].daily, Dose::milligrams(10));
    EXPECT_EQ(plan.steps[2].daily, Dose::milligrams(20));
    EXPECT_EQ(plan.steps[1].status, StepStatus::committed);
    EXPECT_EQ(plan.steps[2].status, StepStatus::outlook);
    EXPECT_EQ(crossover_stages(clonazepam()), 0);
}

TEST(ByHand, TheTaperOfTheNewAgentFollowsTheStagesAndTheyStay) {
    const CrossoverInput input = alprazolam();
    const Plan stages = plan_of_crossover(to_diazepam(), input, first_of_three_stages(input));
    PlanRequest request = to_diazepam();
    request.start = first_cut_after_crossover(stages).value();
    const Plan plan =
        taper_after_crossover(stages, request, {input.regimen, input.products, {}, 0}, shipped_rules())
            .value();
    ASSERT_GT(plan.steps.size(), 5U);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(plan.steps[i].doses, stages.steps[i].doses);
    EXPECT_EQ(plan.start, input.regimen);
    EXPECT_EQ(plan.steps[3].starts, request.start);
    EXPECT_LT(plan.steps[3].daily, Dose::milligrams(20));
    EXPECT_TRUE(plan.steps.back().daily.is_zero());
    for (std::size_t i = 3; i + 1 < plan.steps.size(); ++i)
        for (const PlannedDose& dose : plan.steps[i].doses) {
            EXPECT_EQ(dose.drug, "diazepam");
            EXPECT_EQ(amount_of(dose.pieces), dose.amount);
        }
}

TEST(ByHand, ACutTooSoonAfterACrossoverIsFlagged) {
    const CrossoverInput input = alprazolam();
    const Plan stages = plan_of_crossover(to_diazepam(), input, first_of_three_stages(input));
    PlanRequest request = to_diazepam();
    request.start = stages.steps.back().starts + days(3);
    const Plan plan =
        taper_after_crossover(stages, request, {input.regimen, input.products, {}, 0}, shipped_rules())
            .value();
    const auto rules = rules_of(plan.steps[3]);
    EXPECT_NE(std::ranges::find(rules, "crossover-first-cut"), rules.end());
}

TEST(ByHand, AWeakLiverSpeaksAgainstDiazepamBeforeAnyWayIsShown) {
    CrossoverInput input = alprazolam();
    input.risks.answers["weak liver"] = Answer::yes;
    input.risks.answers["opioid"] = Answer::yes;
    const CrossoverPlan way = first_of_three_stages(input);
    const auto against = case_against_crossing(way), care = care_in_crossing(way);
    ASSERT_EQ(against.size(), 1U);
    EXPECT_EQ(against[0].rule, "crossover-weak-liver");
    EXPECT_EQ(std::ranges::count(care, "crossover-opioid", &Flag::rule), 1);
}

}  // namespace
}  // namespace evenfall
