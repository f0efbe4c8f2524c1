// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/taper.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "formulary/formulary.h"
#include "planning/floor.h"
#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

std::string row(const Step& step) {
    std::string text = std::to_string(step.number) + " " + print_day(step.starts) + " " +
                       (step.days ? std::to_string(*step.days) : "-") + " " + print_mg_digits(step.daily) +
                       " " + print_percent(step.percent_of_last) + "%";
    for (const PlannedDose& dose : step.doses)
        text += " | " + print_clock(dose.at) + " " + print_mg_digits(dose.amount);
    for (const Flag& flag : step.flags) text += " <" + flag.rule + ">";
    return text;
}

TEST(Taper, TheFirstCutIsTheSmallestThatThePiecesMake) {
    const Plan plan = plan_taper(eight_percent(), two_dose_times(), shipped_rules()).value();
    EXPECT_EQ(plan.steps[0].daily, mg("2.375"));
    EXPECT_EQ(print_percent(plan.steps[0].percent_of_last), "5");
    EXPECT_EQ(plan.steps[0].status, StepStatus::committed);
    EXPECT_EQ(plan.steps[1].status, StepStatus::committed);
    EXPECT_EQ(plan.steps[2].status, StepStatus::outlook);
    EXPECT_TRUE(has_flag(plan.steps[0].flags, "test-reduction"));
    EXPECT_FALSE(has_flag(plan.steps[0].flags, "test-reduction-none"));
}

TEST(Taper, TheFloorIsWhereTheCapCanNoLongerBeKept) {
    // 0.125 mg of 1.25 mg is exactly 10 %; from 1.125 mg on every cut is over it.
    TaperInput input = two_dose_times();
    input.candidates = {solution("clonazepam", "0.1", "0.1")};
    const Plan plan = plan_taper(eight_percent(), input, shipped_rules()).value();
    EXPECT_EQ(plan.floor.amount, mg("1.125"));
    EXPECT_EQ(plan.floor.smallest_cut, mg("0.125"));
    ASSERT_EQ(plan.floor.says.size(), 2U);
    EXPECT_EQ(plan.floor.says[0].rule, "floor");
    EXPECT_EQ(plan.floor.says[1].rule, "floor-would-move");
}

TEST(Taper, OffIsAStepOfItsOwn) {
    const Plan plan = plan_taper(eight_percent(), two_dose_times(), shipped_rules()).value();
    const Step& off = plan.steps.back();
    EXPECT_TRUE(off.daily.is_zero());
    EXPECT_TRUE(off.doses.empty());
    EXPECT_FALSE(off.days);
    EXPECT_EQ(off.percent_of_last, Share::percent(100));
    EXPECT_TRUE(has_flag(off.flags, "to-off"));
    EXPECT_EQ(off.status, StepStatus::outlook);
}

TEST(Taper, ADoseTimeEndsOnlyAsTheLastResort) {
    // Alprazolam 0.5 mg three times a day in halves of 0.5 mg: every cut is 0.25 mg. Each dose time can be
    // halved before one has to end.
    PlanRequest request = eight_percent();
    request.drug = "alprazolam";
    request.target = Share::percent(10);
    const TaperInput input{{{dose_at("08:00", "alprazolam", "0.5"), dose_at("14:00", "alprazolam", "0.5"),
                             dose_at("22:00", "alprazolam", "0.5")}},
                           {solid("alprazolam", "0.5", Cuts::halves)},
                           {},
                           11.2};
    const Plan plan = plan_taper(request, input, shipped_rules()).value();
    for (const Step& step : plan.steps)
        EXPECT_TRUE(step.daily < mg("0.75") || step.doses.size() == 3) << row(step);
}

TEST(Taper, ADoseThatStaysKeepsItsTabletsWhereTheDayIsHardlyMoreTrouble) {
    // Diazepam 5 mg at night as one tablet; of 2 mg alone the whole day would be a little less trouble.
    PlanRequest request = eight_percent();
    request.drug = "diazepam";
    request.target = Share::percent(5);
    const TaperInput input{{{dose_at("08:00", "diazepam", "8"), dose_at("21:00", "diazepam", "8")}},
                           {solid("diazepam", "2", Cuts::halves), solid("diazepam", "5", Cuts::halves)},
                           {},
                           62};
    const Plan plan = plan_taper(request, input, shipped_rules()).value();
    const Plan free =
        plan_taper(request, input, shipped_rules().with("piece-weights", "kept", "0").value()).value();
    const auto changed = [](const Plan& of) {
        return std::ranges::count_if(of.steps,
                                     [](const Step& step) { return has_flag(step.flags, "pieces-changed"); });
    };
    EXPECT_LT(changed(plan), changed(free));
    ASSERT_EQ(plan.steps.size(), free.steps.size());
    for (std::size_t i = 0; i < plan.steps.size(); ++i) EXPECT_EQ(plan.steps[i].daily, free.steps[i].daily);
}

TEST(Taper, TheSameAmountOfOtherTabletsIsMarked) {
    // 1 mg of 1 mg tablets; once the morning needs 0.5 mg tablets, one product for the whole day is less
    // trouble.
    PlanRequest request = eight_percent();
    request.target = request.cap = Share::percent(30);
    request.test_reduction = false;
    const TaperInput input{{{dose_at("08:00", "clonazepam", "1"), dose_at("21:00", "clonazepam", "1")}},
                           {solid("clonazepam", "1", Cuts::whole), solid("clonazepam", "0.5", Cuts::whole)},
                           {},
                           39};
    const Plan plan = plan_taper(request, input, shipped_rules()).value();
    for (std::size_t i = 1; i < plan.steps.size(); ++i) {
        std::string at;
        for (const PlannedDose& now : plan.steps[i].doses)
            for (const PlannedDose& before : plan.steps[i - 1].doses)
                if (now.at == before.at && now.amount == before.amount && now.pieces != before.pieces)
                    at += (at.empty() ? "" : ", ") + print_clock(now.at);
        EXPECT_EQ(!at.empty(), has_flag(plan.steps[i].flags, "pieces-changed")) << row(plan.steps[i]);
    }
}

TEST(Taper, AStartInThePastIsFlagged) {
    TaperInput input = two_dose_times();
    EXPECT_FALSE(has_flag(plan_taper(eight_percent(), input, shipped_rules())->flags, "start-in-past"));
    input.today = eight_percent().start;
    EXPECT_FALSE(has_flag(plan_taper(eight_percent(), input, shipped_rules())->flags, "start-in-past"));
    input.today = eight_percent().start + std::chrono::days(1);
    EXPECT_TRUE(has_flag(plan_taper(eight_percent(), input, shipped_rules())->flags, "start-in-past"));
}

TEST(Taper, ProductsThatWouldMoveTheFloorAreOfTheAgentAndTheFurthestFirst) {
    const Formulary formulary = load_formulary(resources_folder() / "formulary.json").value();
    TaperInput input{{{dose_at("08:00", "diazepam", "4"), dose_at("22:00", "diazepam", "6")}},
                     {solid("diazepam", "2", Cuts::halves)},
                     {},
                     62};
    input.candidates = floor_candidates(formulary.drugs.at("diazepam"), input.products);
    input.candidates.push_back(solution("lorazepam", "2", "0.25"));  // of another agent: left out
    PlanRequest request = eight_percent();
    request.drug = "diazepam";
    request.target = Share::percent(10);
    const Plan plan = plan_taper(request, input, shipped_rules()).value();
    ASSERT_GE(plan.floor.says.size(), 2U);
    EXPECT_LE(plan.floor.says.size(), 5U);
    EXPECT_EQ(plan.floor.says[1].args.at("product"), "diazepam 1 mg/mL oral solution");
    for (const Product& each : input.candidates) EXPECT_FALSE(is_modified_release(each.form));
    for (std::size_t i = 1; i < plan.floor.says.size(); ++i)
        EXPECT_EQ(plan.floor.says[i].args.at("product").find("lorazepam"), std::string::npos);
}

TEST(Taper, TooManyCombinationsAreRefusedBeforeTheyFillTheMemory) {
    TaperInput input{{{dose_at("22:00", "x", "100")}}, {}, {}, 0};
    for (int i = 0; i < 10; ++i) input.products.push_back(solution("x", std::to_string(i + 1), "0.01"));
    PlanRequest request = eight_percent();
    request.drug = "x";
    EXPECT_TRUE(has_fault(plan_taper(request, input, shipped_rules()), "plan-too-many-pieces"));
}

TEST(Taper, AMaintenanceAmountIsAnEnd) {
    PlanRequest request = eight_percent();
    request.end_amount = mg("1.25");
    const Plan plan = plan_taper(request, two_dose_times(), shipped_rules()).value();
    EXPECT_EQ(plan.steps.back().daily, mg("1.25"));
    EXPECT_FALSE(plan.floor.amount);
}

TEST(Taper, WithoutTheWeightOfPiecesFineCutsKeepToTheTarget) {
    // Ten per cent of the current dose: half after 7 cuts, a tenth after 22 (arithmetic: 0.9^7 = 0.478,
    // 0.9^22 = 0.098).
    PlanRequest request;
    request.drug = "diazepam";
    request.start = day_at(2027, 1, 4);
    request.test_reduction = false;
    request.cap = Share::percent(12);
    request.last_dose = mg("1");
    const TaperInput input{
        {{dose_at("22:00", "diazepam", "10")}}, {solution("diazepam", "1", "0.05")}, {}, 0};
    const Rules even_only = shipped_rules().with("path-weights", "burden", "0").value();
    const Plan plan = plan_taper(request, input, even_only).value();
    EXPECT_EQ(plan.steps.size(), 23U);  // 22 cuts to a tenth, then OFF
    EXPECT_LE(plan.steps[6].daily, mg("5"));
    EXPECT_GT(plan.steps[5].daily, mg("5"));
}

TEST(Taper, ALargerCutIsFollowedByALongerStay) {
    PlanRequest request = eight_percent();
    const Plan even = plan_taper(request, two_dose_times(), shipped_rules()).value();
    request.pace = Pace::fixed;
    const Plan fixed = plan_taper(request, two_dose_times(), shipped_rules()).value();
    for (const Step& step : fixed.steps) EXPECT_TRUE(!step.days || *step.days == 14) << row(step);
    const Step& last = even.steps[even.steps.size() - 2];
    EXPECT_GT(*last.days, 14);
    for (const Step& step : even.steps) EXPECT_TRUE(!step.days || *step.days % 7 == 0) << row(step);
}

TEST(Taper, OtherAgentsStayAsTheyAre) {
    TaperInput input = two_dose_times();
    input.start.doses.insert(input.start.doses.begin() + 1, dose_at("12:00", "lorazepam", "1"));
    const Plan plan = plan_taper(eight_percent(), input, shipped_rules()).value();
    for (const Step& step : plan.steps) {
        if (step.daily.is_zero()) continue;
        int other = 0;
        for (const PlannedDose& dose : step.doses)
            if (dose.drug == "lorazepam") {
                ++other;
                EXPECT_EQ(dose.amount, mg("1"));
                EXPECT_TRUE(dose.pieces.empty());
            }
        EXPECT_EQ(other, 1);
    }
}

TEST(Taper, ADoseTimeFirstGoesToNothingBeforeTheOthersMove) {
    PlanRequest request = eight_percent();
    request.shape = Shape::dose_time_first;
    request.first_dose_time = clock_time("08:00");
    const Plan plan = plan_taper(request, two_dose_times(), shipped_rules()).value();
    for (const Step& step : plan.steps) {
        if (step.doses.size() == 1) break;
        EXPECT_GE(step.doses.back().amount, mg("1.375")) << row(step);
    }
}

TEST(Taper, LargerAtNightNeverLeavesTheNightBehind) {
    PlanRequest request = eight_percent();
    request.shape = Shape::larger_at_night;
    const Plan plan = plan_taper(request, two_dose_times(), shipped_rules()).value();
    for (const Step& step : plan.steps)
        EXPECT_TRUE(step.doses.size() != 2 || step.doses[1].amount >= step.doses[0].amount) << row(step);
}

TEST(Taper, EveryFaultOfARequestIsNamedAtOnce) {
    PlanRequest request = eight_percent();
    request.target = Share::percent(0);
    request.cap = Share::percent(100);
    request.days_per_step = 1000;
    TaperInput input = two_dose_times();
    std::swap(input.start.doses[0].at, input.start.doses[1].at);
    const auto result = plan_taper(request, input, shipped_rules());
    for (const char* id : {"plan-target-range", "plan-cap-range", "plan-days-range", "plan-dose-times-order"})
        EXPECT_TRUE(has_fault(result, id)) << id;
}

TEST(Taper, AStartThatCannotBeMadeNamesTheNearestAmounts) {
    TaperInput input = two_dose_times();
    input.start.doses[0].amount = mg("1.05");
    const auto result = plan_taper(eight_percent(), input, shipped_rules());
    ASSERT_TRUE(has_fault(result, "plan-start-not-makeable"));
    EXPECT_EQ(result.faults().front().args.at("nearest"), "1 mg, 1.125 mg");
    EXPECT_EQ(result.faults().front().args.at("piece"), "0.025 mg");
}

TEST(Taper, OddRequestsAreRefusedInWords) {
    const auto refused = [](auto change, const std::string& id) {
        PlanRequest request = eight_percent();
        TaperInput input = two_dose_times();
        change(request, input);
        const auto result = plan_taper(request, input, shipped_rules());
        EXPECT_TRUE(has_fault(result, id)) << id;
    };
    refused([](PlanRequest& r, TaperInput&) { r.drug = ""; }, "plan-no-drug");
    refused([](PlanRequest& r, TaperInput&) { r.drug = "lorazepam"; }, "plan-drug-not-in-regimen");
    refused([](PlanRequest& r, TaperInput&) { r.days_per_step = 0; }, "plan-days-range");
    refused([](PlanRequest& r, TaperInput&) { r.target = Share::percent(12); }, "plan-target-over-cap");
    refused([](PlanRequest& r, TaperInput&) { r.end_amount = mg("3"); }, "plan-end-not-below");
    refused([](PlanRequest& r, TaperInput&) { r.last_dose = mg("0.3"); }, "plan-last-not-makeable");
    refused([](PlanRequest& r, TaperInput&) { r.shape = Shape::dose_time_first; }, "plan-first-dose-time");
    refused([](PlanRequest&, TaperInput& i) { i.start.doses.clear(); }, "plan-no-doses");
    refused([](PlanRequest&, TaperInput& i) { i.products.clear(); }, "plan-no-product");
    refused([](PlanRequest&, TaperInput& i) { i.start.doses[1].at = i.start.doses[0].at; },
            "plan-dose-time-twice");
    refused([](PlanRequest&, TaperInput& i) { i.start.doses.resize(25, i.start.doses[0]); },
            "plan-too-many-dose-times");
    refused([](PlanRequest&, TaperInput& i) { i.start.doses[0].amount = Dose(); }, "plan-dose-not-positive");
    refused([](PlanRequest&,
               TaperInput& i) { i.products.push_back(solid("clonazepam", "0.333333", Cuts::whole)); },
            "plan-grid-too-fine");
}

TEST(Taper, AStopIsObeyed) {
    std::stop_source source;
    source.request_stop();
    EXPECT_TRUE(has_fault(plan_taper(eight_percent(), two_dose_times(), shipped_rules(), source.get_token()),
                          "plan-stopped"));
}

TEST(Replan, WithNothingChangedTheSamePlanComesOut) {
    const Plan plan = plan_taper(eight_percent(), two_dose_times(), shipped_rules()).value();
    for (int keep = 1; keep < 6; ++keep) {
        const Replan change{keep, plan.steps[static_cast<std::size_t>(keep)].starts, plan.request,
                            two_dose_times()};
        const Plan again = replan(plan, change, shipped_rules()).value();
        ASSERT_EQ(again.steps.size(), plan.steps.size());
        for (std::size_t i = 0; i < plan.steps.size(); ++i) {
            EXPECT_EQ(again.steps[i].daily, plan.steps[i].daily);
            EXPECT_EQ(again.steps[i].doses, plan.steps[i].doses);
            EXPECT_EQ(again.steps[i].starts, plan.steps[i].starts);
        }
    }
}

TEST(Replan, AHoldMovesOnlyWhatIsNotKept) {
    const Plan plan = plan_taper(eight_percent(), two_dose_times(), shipped_rules()).value();
    Replan change{2, plan.steps[2].starts + std::chrono::days(28), plan.request, two_dose_times()};
    const Plan held = replan(plan, change, shipped_rules()).value();
    EXPECT_EQ(held.steps[0], plan.steps[0]);
    EXPECT_EQ(held.steps[1].doses, plan.steps[1].doses);
    EXPECT_EQ(held.steps[1].days, *plan.steps[1].days + 28);
    EXPECT_EQ(held.steps[2].starts, change.resume);
    change.resume = plan.steps[1].starts;
    EXPECT_TRUE(has_fault(replan(plan, change, shipped_rules()), "replan-resume-early"));
    change.keep = 99;
    EXPECT_TRUE(has_fault(replan(plan, change, shipped_rules()), "replan-no-such-step"));
}

}  // namespace
}  // namespace evenfall
