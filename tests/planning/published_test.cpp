// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <gtest/gtest.h>

#include "planning/crossover.h"
#include "planning/planning_fixture.h"
#include "planning/review.h"

// Published schedules and crossovers, rebuilt or judged by the same rules as our own. Each names its source;
// what could be read only in part, or is from memory, says so.

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

using Steps = std::vector<int>;

struct Published {
    ReviewInput input;
    Day next = day_at(2027, 1, 4);

    Published& entry(std::vector<DoseTime> doses, int days) {
        input.schedule.push_back({next, {std::move(doses)}});
        next += std::chrono::days(days);
        return *this;
    }
    /// One dose at night.
    Published& night(const std::string& drug, const std::string& amount, int days) {
        return amount == "0" ? entry({}, days) : entry({dose_at("22:00", drug, amount)}, days);
    }
    Review judged() const { return review_schedule(input, formulary(), shipped_rules()).value(); }
};

Steps steps_with(const Review& review, const std::string& rule) {
    Steps steps;
    for (const Finding& finding : review.findings)
        if (finding.flag.rule == rule) steps.push_back(finding.step);
    return steps;
}

Steps from_to(int first, int last) {
    Steps steps;
    for (int i = first; i <= last; ++i) steps.push_back(i);
    return steps;
}

// Scottish Government, Quality prescribing for benzodiazepines and z-drugs, reduction schedules (Right
// Decisions for Health and Care, Scotland; looked up): lorazepam 1 mg in the morning and at night, to
// diazepam 10 mg at night, then 10 mg in the morning, then 1 mg less at each step to nothing, the morning
// first. The guide reviews and reduces every two to four weeks (chapter 5).
const std::vector<std::pair<int, int>> kScottish{
    // morning, night, in mg of diazepam, from step 2 on
    {10, 10}, {9, 10}, {8, 10}, {7, 10}, {6, 10}, {5, 10}, {4, 10}, {3, 10}, {2, 10}, {1, 10}, {0, 10},
    {0, 9},   {0, 8},  {0, 7},  {0, 6},  {0, 5},  {0, 4},  {0, 3},  {0, 2},  {0, 1},  {0, 0}};

TEST(Published, TheScottishCrossoverFromLorazepamIsRebuilt) {
    Formulary scottish = formulary();  // its table: 1 mg of lorazepam is about 10 mg of diazepam
    Equivalence& lorazepam = *scottish.drugs.at("lorazepam").equivalence;
    lorazepam.usual = mg("1");
    lorazepam.most_diazepam = std::min(lorazepam.most_diazepam, lorazepam.usual);
    CrossoverInput input;
    input.regimen.doses = {dose_at("08:00", "lorazepam", "1"), dose_at("22:00", "lorazepam", "1")};
    input.from = "lorazepam";
    input.to = "diazepam";
    input.start = day_at(2027, 1, 4);
    input.days_per_stage = 14;
    input.products = {solid("lorazepam", "1", Cuts::halves), solid("diazepam", "10", Cuts::halves),
                      solid("diazepam", "2", Cuts::halves)};
    int found = 0;
    const auto plans = plan_crossover(input, scottish, shipped_rules()).value();
    for (const CrossoverPlan& plan : plans) {
        if (plan.portion != Portion::whole || plan.days_per_stage != 14) continue;
        ++found;
        ASSERT_EQ(plan.stages.size(), 2U);
        const auto& first = plan.stages[0].doses;
        ASSERT_EQ(first.size(), 2U);
        EXPECT_EQ(first[0].drug + " " + print_mg_digits(first[0].amount), "lorazepam 1");
        EXPECT_EQ(first[1].drug + " " + print_mg_digits(first[1].amount), "diazepam 10");
        const auto& second = plan.stages[1].doses;
        EXPECT_EQ(second[0].drug + " " + print_mg_digits(second[0].amount), "diazepam 10");
        EXPECT_EQ(second[1].drug + " " + print_mg_digits(second[1].amount), "diazepam 10");
        EXPECT_EQ(plan.stages[0].diazepam->usual, mg("20"));
        EXPECT_EQ(plan.stages[1].diazepam->usual, mg("20"));
    }
    EXPECT_EQ(found, 1);
}

TEST(Published, TheScottishReductionFallsByAShareOfTheFirstDose) {
    Published scottish;
    for (const auto& [morning, night] : kScottish) {
        std::vector<DoseTime> doses;
        if (morning > 0) doses.push_back(dose_at("08:00", "diazepam", std::to_string(morning)));
        if (night > 0) doses.push_back(dose_at("22:00", "diazepam", std::to_string(night)));
        scottish.entry(doses, 14);
    }
    const Review review = scottish.judged();
    EXPECT_EQ(steps_with(review, "percent-of-first"), Steps{1});
    // 1 mg is 10 % of 10 mg exactly, and over a cap of 10 % from 9 mg on.
    EXPECT_EQ(steps_with(review, "cut-over-cap"), from_to(12, 20));
    EXPECT_EQ(steps_with(review, "dose-time-dropped"), Steps{10});
    // 1 mg of 4 mg is 25 % exactly, of 3 mg more.
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), from_to(18, 20));
    EXPECT_EQ(steps_with(review, "stop"), Steps{20});
    EXPECT_FALSE(review.keeps_the_cap);
}

// NICE Clinical Knowledge Summary, benzodiazepine and z-drug withdrawal, as quoted in an NHS document (looked
// up): diazepam from 40 mg down by 2 to 4 mg every 1 to 2 weeks to 20 mg, by 1 to 2 mg to 10 mg, by 1 mg to
// 5 mg, by 0.5 to 1 mg to nothing; estimated 30 to 60 weeks from 40 mg, 20 to 40 weeks from 20 mg.
Published knowledge_summary(bool largest, int days, double from) {
    Published schedule;
    double dose = from;
    const auto text = [](double value) {
        return print_mg_digits(Dose::micrograms(std::lround(value * 1000)));
    };
    while (dose > 0) {
        schedule.night("diazepam", text(dose), days);
        const double cut = dose > 20   ? (largest ? 4 : 2)
                           : dose > 10 ? (largest ? 2 : 1)
                           : dose > 5  ? 1
                                       : (largest ? 1 : 0.5);
        dose -= cut;
    }
    return schedule.night("diazepam", "0", days);
}

TEST(Published, TheKnowledgeSummaryTakesAsLongAsItSays) {
    const auto weeks = [](const Published& schedule) {
        return static_cast<int>(
                   (schedule.input.schedule.back().from - schedule.input.schedule.front().from).count()) /
               7;
    };
    // 20 steps of the largest and 35 of the smallest cuts, at one or two weeks: 20 to 70 weeks, about the
    // printed 30 to 60.
    EXPECT_EQ(weeks(knowledge_summary(true, 7, 40)), 20);
    EXPECT_EQ(weeks(knowledge_summary(true, 14, 40)), 40);
    EXPECT_EQ(weeks(knowledge_summary(false, 7, 40)), 35);
    EXPECT_EQ(weeks(knowledge_summary(false, 14, 40)), 70);
    EXPECT_EQ(weeks(knowledge_summary(false, 7, 20)), 25);  // printed: 20 to 40
}

TEST(Published, TheKnowledgeSummaryKeepsTheCapOnlyWithItsSmallestCuts) {
    const Review smallest = knowledge_summary(false, 14, 40).judged();
    // 2 mg of 22 mg is 9.1 %, 1 mg of 11 mg 9.1 %, of 10 mg exactly 10 %; 1 mg of 9 mg is the first over it.
    const Steps over = steps_with(smallest, "cut-over-cap");
    ASSERT_FALSE(over.empty());
    EXPECT_EQ(smallest.steps[static_cast<std::size_t>(over.front())].daily.at("diazepam"), mg("8"));
    const Review largest = knowledge_summary(true, 7, 40).judged();
    EXPECT_EQ(steps_with(largest, "cut-over-cap").front(), 2);  // 4 mg of 36 mg
    EXPECT_FALSE(steps_with(largest, "step-interval").empty());
}

// Tapering clonazepam in patients with panic disorder after at least 3 years of treatment (J Clin
// Psychopharmacol 2010; abstract, looked up in translation): 0.5 mg less every two weeks until 1 mg a day,
// then 0.25 mg less every week.
TEST(Published, TheClonazepamTrialCutsFarOverTheCap) {
    Published trial;
    for (const char* amount : {"3", "2.5", "2", "1.5"}) trial.night("clonazepam", amount, 14);
    for (const char* amount : {"1", "0.75", "0.5", "0.25", "0"}) trial.night("clonazepam", amount, 7);
    const Review review = trial.judged();
    EXPECT_EQ(steps_with(review, "cut-over-cap"), from_to(1, 8));
    EXPECT_EQ(print_percent(*review.steps[1].percent_of_last), "16.7");
    EXPECT_EQ(steps_with(review, "step-interval"), from_to(5, 8));
    EXPECT_EQ(steps_with(review, "percent-of-first"), (Steps{1, 5}));  // two runs of equal falls
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), from_to(4, 8));
}

// Discontinuation of alprazolam treatment in panic patients (Am J Psychiatry 1987;144:303-308; abstract,
// looked up): 10 % of the starting dose every 3 days; four of 17 patients kept to it.
TEST(Published, TheAlprazolamTrialTookItsShareOfTheStartingDose) {
    Published trial;
    for (const char* amount : {"5", "4.5", "4", "3.5", "3", "2.5", "2", "1.5", "1", "0.5", "0"})
        trial.night("alprazolam", amount, 3);
    const Review review = trial.judged();
    EXPECT_EQ(steps_with(review, "percent-of-first"), Steps{1});
    EXPECT_EQ(steps_with(review, "cut-over-cap"), from_to(2, 10));  // the first is 10 % of both
    EXPECT_EQ(steps_with(review, "step-interval"), from_to(2, 10));
    EXPECT_FALSE(steps_with(review, "fall-over-two-weeks").empty());
    EXPECT_EQ(print_percent(*review.steps[9].percent_of_last), "50");
    EXPECT_EQ(print_percent(*review.steps[9].percent_of_first), "10");
}

// Nurse practitioner teaching module 4, lesson 4.4 (Canadian Association of Schools of Nursing; looked up):
// by 10 % of the dose every one to two weeks to a fifth of the original dose, then by 5 % every two to four
// weeks.
TEST(Published, TheTeachingModulesTaperIsOfTheOriginalDose) {
    Published module;
    for (const char* amount : {"20", "18", "16", "14", "12", "10", "8", "6"})
        module.night("diazepam", amount, 14);
    for (const char* amount : {"4", "3", "2", "1", "0"}) module.night("diazepam", amount, 28);
    const Review review = module.judged();
    EXPECT_EQ(steps_with(review, "percent-of-first"), (Steps{1, 9}));
    EXPECT_EQ(steps_with(review, "cut-over-cap"), from_to(2, 12));
}

// Therapeutic Guidelines (Australia), weaning begun in hospital (unofficial mirror, looked up): about 10 % a
// day after stabilization, in hospital only, to 20 mg a day or less.
TEST(Published, ADailyTenPerCentIsForHospitalsOnly) {
    Published hospital;
    for (const char* amount : {"40", "36", "32.4", "29.16", "26.244", "23.62"})
        hospital.night("diazepam", amount, 1);
    const Review review = hospital.judged();
    EXPECT_TRUE(review.keeps_the_cap);                                    // each cut alone
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), from_to(3, 5));  // 1 - 0.9^3 = 27.1 %
    EXPECT_EQ(steps_with(review, "step-interval"), from_to(2, 5));
}

// Older practice guide, through a scoping review (J Clin Med 2023;12:1788; looked up): half over the first 2
// to 4 weeks, held for 2 to 8 weeks, then a quarter every 2 weeks.
TEST(Published, AHalfInFourWeeksBreaksEveryLimit) {
    Published older;
    for (const char* amount : {"40", "30"}) older.night("diazepam", amount, 14);
    older.night("diazepam", "20", 56);
    for (const char* amount : {"15", "11.25"}) older.night("diazepam", amount, 14);
    const Review review = older.judged();
    EXPECT_EQ(steps_with(review, "cut-over-cap"), from_to(1, 4));
    // 25 % is not over 25 %; 40 to 20 mg stands 14 days apart, so that no 14 days hold both cuts.
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), Steps{2});  // 10 mg of 30 mg
}

// Joint Clinical Practice Guideline on Benzodiazepine Tapering (2025), pocket guide (looked up): 5 % to 10 %
// of the current dose every 2 to 4 weeks, typically not over 25 % in 2 weeks.
TEST(Published, ThePaceOfTheJointGuidelineIsRebuiltAndJudgedClean) {
    PlanRequest request;
    request.drug = "diazepam";
    request.start = day_at(2027, 1, 18);
    request.target = Share::percent(10);
    request.days_per_step = 14;
    request.test_reduction = false;
    request.last_dose = mg("1");
    const TaperInput input{{{dose_at("08:00", "diazepam", "10"), dose_at("22:00", "diazepam", "10")}},
                           {solid("diazepam", "5", Cuts::halves), solution("diazepam", "1", "0.1")},
                           {},
                           62};
    const Plan plan = plan_taper(request, input, shipped_rules()).value();
    Published rebuilt;
    rebuilt.input.schedule.push_back({day_at(2027, 1, 4), input.start});
    for (const Step& step : plan.steps) {
        DatedRegimen entry{step.starts, {}};
        for (const PlannedDose& dose : step.doses)
            entry.regimen.doses.push_back({dose.at, dose.drug, dose.amount, "", ""});
        rebuilt.input.schedule.push_back(entry);
        EXPECT_TRUE(step.daily.is_zero() || step.percent_of_last >= Share::percent(5)) << step.number;
    }
    const Review review = rebuilt.judged();
    EXPECT_TRUE(review.keeps_the_cap);
    EXPECT_TRUE(steps_with(review, "step-interval").empty());
    EXPECT_TRUE(steps_with(review, "dose-time-rises").empty());
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks").size(), 1U);  // the stop
}

// Withdrawal from benzodiazepines by initially switching to zopiclone (European Psychiatry 1995; abstract,
// looked up): of a gap, an overlap and immediate substitution at night, immediate substitution went best.
TEST(Published, TheHypnoticTrialsImmediateSwapIsOneStageAndNamed) {
    CrossoverInput input;
    input.regimen.doses = {dose_at("22:30", "temazepam", "15")};
    input.from = "temazepam";
    input.to = "zopiclone";
    input.start = day_at(2027, 1, 4);
    input.products = {solid("temazepam", "15", Cuts::whole, Form::capsule),
                      solid("zopiclone", "7.5", Cuts::halves)};
    const auto plans = plan_crossover(input, formulary(), shipped_rules()).value();
    ASSERT_EQ(plans.size(), 1U);  // one capsule at one time: nothing to divide
    ASSERT_EQ(plans[0].stages.size(), 1U);
    EXPECT_EQ(plans[0].stages[0].daily.at("temazepam"), Dose());
    EXPECT_EQ(plans[0].stages[0].doses.size(), 1U);
    EXPECT_TRUE(has_flag(plans[0].stages[0].flags, "crossover-one-day"));
}

// A withdrawal manual of 2002, chapter 2, schedule of alprazolam 2 mg three times a day with diazepam in its
// place (from memory, its first four weeks): every week a part of one dose, the night first, all along the
// same 120 mg of diazepam by its own table, 0.5 mg to 10 mg.
TEST(Published, TheManualsCrossoverKeepsItsTotalAndIsJudgedClean) {
    Formulary manual = formulary();
    Equivalence& alprazolam = *manual.drugs.at("alprazolam").equivalence;
    alprazolam.usual = mg("0.5");
    alprazolam.most_diazepam = std::min(alprazolam.most_diazepam, alprazolam.usual);
    const char* const stages[][6] = {// alprazolam and diazepam in the morning, at midday, at night
                                     {"2", "0", "2", "0", "2", "0"},
                                     {"2", "0", "2", "0", "1.5", "10"},
                                     {"2", "0", "2", "0", "1", "20"},
                                     {"1.5", "10", "2", "0", "1", "20"},
                                     {"1", "20", "2", "0", "1", "20"}};
    const char* const times[] = {"08:00", "13:00", "22:00"};
    Published schedule;
    for (const auto& stage : stages) {
        std::vector<DoseTime> doses;
        for (std::size_t i = 0; i < 3; ++i) {
            doses.push_back(dose_at(times[i], "alprazolam", stage[2 * i]));
            if (std::string(stage[2 * i + 1]) != "0")
                doses.push_back(dose_at(times[i], "diazepam", stage[2 * i + 1]));
        }
        schedule.entry(doses, 7);
    }
    const Review review = review_schedule(schedule.input, manual, shipped_rules()).value();
    for (const ReviewedStep& step : review.steps) EXPECT_EQ(step.diazepam->usual, mg("120")) << step.number;
    EXPECT_TRUE(review.keeps_the_cap);
    for (const char* rule : {"cut-over-cap", "total-rises", "dose-time-rises", "two-agents-fall"})
        EXPECT_TRUE(steps_with(review, rule).empty()) << rule;

    // Ways across in half doses keep the same total at every stage.
    CrossoverInput input;
    for (const char* time : times) input.regimen.doses.push_back(dose_at(time, "alprazolam", "2"));
    input.from = "alprazolam";
    input.to = "diazepam";
    input.start = schedule.input.schedule[1].from;
    input.products = {solid("alprazolam", "1", Cuts::halves), solid("diazepam", "10", Cuts::halves)};
    bool found = false;
    const std::vector<CrossoverPlan> plans = plan_crossover(input, manual, shipped_rules()).value();
    for (const CrossoverPlan& plan : plans) {
        if (plan.portion != Portion::half) continue;
        found = true;
        for (const CrossoverStage& stage : plan.stages) EXPECT_EQ(stage.diazepam->usual, mg("120"));
    }
    EXPECT_TRUE(found);
}

}  // namespace
}  // namespace evenfall
