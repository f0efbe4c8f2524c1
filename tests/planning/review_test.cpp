// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/review.h"

#include <gtest/gtest.h>

#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

ReviewInput schedule_of(const std::string& drug, const std::vector<std::string>& daily, int days) {
    ReviewInput input;
    Day from = day_at(2027, 1, 4);
    for (const std::string& amount : daily) {
        DatedRegimen entry{from, {}};
        if (amount != "0") entry.regimen.doses.push_back(dose_at("22:00", drug, amount));
        input.schedule.push_back(entry);
        from += std::chrono::days(days);
    }
    return input;
}

std::vector<int> steps_with(const Review& review, const std::string& rule) {
    std::vector<int> steps;
    for (const Finding& finding : review.findings)
        if (finding.flag.rule == rule) steps.push_back(finding.step);
    return steps;
}

Review judged(const ReviewInput& input) {
    return review_schedule(input, Formulary{}, shipped_rules()).value();
}

using Steps = std::vector<int>;

TEST(Review, EqualAmountsOfTheFirstDoseAreNamed) {
    // US label, alprazolam: not more than 0.5 mg every 3 days (from memory).
    const Review review =
        judged(schedule_of("alprazolam", {"4", "3.5", "3", "2.5", "2", "1.5", "1", "0.5", "0"}, 3));
    EXPECT_FALSE(review.keeps_the_cap);
    EXPECT_EQ(steps_with(review, "percent-of-first"), Steps{1});
    EXPECT_EQ(steps_with(review, "cut-over-cap"), (Steps{1, 2, 3, 4, 5, 6, 7, 8}));
    // 4 to 3 mg is exactly 25 %; 4 to 2.5 mg in six days is 37.5 %.
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), (Steps{3, 4, 5, 6, 7, 8}));
    EXPECT_EQ(steps_with(review, "stop"), Steps{8});
    EXPECT_EQ(print_percent(*review.steps[7].percent_of_last), "50");
    EXPECT_EQ(print_percent(*review.steps[7].percent_of_first), "12.5");
}

TEST(Review, ClonazepamByItsLabelFallsTooFastAtLowDoses) {
    // US label, clonazepam in panic disorder: down by 0.125 mg twice daily every 3 days (third-party copy of
    // the label).
    const Review review = judged(schedule_of("clonazepam", {"1", "0.75", "0.5", "0.25", "0"}, 3));
    EXPECT_EQ(steps_with(review, "fall-over-two-weeks"), (Steps{2, 3, 4}));
    EXPECT_EQ(steps_with(review, "cut-over-cap"), (Steps{1, 2, 3, 4}));
}

TEST(Review, TwentyFivePerCentEveryTwoWeeksIsAtTheEdgeOfTwoWeeksAndOverTheCap) {
    // Deprescribing guideline 2018: about 25 % every 2 weeks (from memory). Exactly 25 % is not over 25 %.
    const Review review = judged(schedule_of("temazepam", {"20", "15", "11.25"}, 14));
    EXPECT_TRUE(steps_with(review, "fall-over-two-weeks").empty());
    EXPECT_EQ(steps_with(review, "cut-over-cap"), (Steps{1, 2}));
}

TEST(Review, OneEighthEveryTwoWeeksIsOverACapOfTenPerCent) {
    // NICE CKS, seen through an NHS document: one-eighth of the dose every two weeks.
    ReviewInput input = schedule_of("diazepam", {"16", "14", "12.25"}, 14);
    EXPECT_EQ(steps_with(judged(input), "cut-over-cap"), (Steps{1, 2}));
    input.cap = Share::of(1, 8);
    EXPECT_TRUE(judged(input).keeps_the_cap);
}

TEST(Review, ThreeTenPerCentCutsInTwoWeeksFallTwentySevenPerCent) {
    // Arithmetic: 1 - 0.9^2 = 19 %, 1 - 0.9^3 = 27.1 %.
    EXPECT_TRUE(
        steps_with(judged(schedule_of("diazepam", {"10", "9", "8.1"}, 6)), "fall-over-two-weeks").empty());
    const Review three = judged(schedule_of("diazepam", {"10", "9", "8.1", "7.29"}, 6));
    EXPECT_EQ(steps_with(three, "fall-over-two-weeks"), Steps{3});
    EXPECT_TRUE(three.keeps_the_cap);
}

TEST(Review, ASkippedDayAndARisingDoseTimeAreFound) {
    const Review review = judged(schedule_of("diazepam", {"10", "0", "9"}, 1));
    EXPECT_EQ(steps_with(review, "skipped-day"), Steps{1});
    EXPECT_TRUE(steps_with(review, "stop").empty());
    ReviewInput input = schedule_of("diazepam", {"10", "9"}, 14);
    input.schedule[0].regimen.doses = {dose_at("08:00", "diazepam", "5"), dose_at("22:00", "diazepam", "5")};
    input.schedule[1].regimen.doses = {dose_at("08:00", "diazepam", "3"), dose_at("22:00", "diazepam", "6")};
    EXPECT_EQ(steps_with(judged(input), "dose-time-rises"), Steps{1});
}

ReviewInput two_entries(std::vector<DoseTime> before, std::vector<DoseTime> after) {
    ReviewInput input;
    input.schedule = {{day_at(2027, 1, 4), {std::move(before)}}, {day_at(2027, 1, 18), {std::move(after)}}};
    return input;
}

TEST(Review, ADoseTimeThatIsMovedIsNoRise) {
    const Review moved =
        judged(two_entries({dose_at("08:00", "diazepam", "5"), dose_at("21:00", "diazepam", "5")},
                           {dose_at("09:00", "diazepam", "5"), dose_at("21:00", "diazepam", "4")}));
    EXPECT_TRUE(steps_with(moved, "dose-time-rises").empty());
    EXPECT_TRUE(steps_with(moved, "dose-time-dropped").empty());
}

TEST(Review, ADoseTimeThatEndsIsNamedWithItsGap) {
    const Review dropped =
        judged(two_entries({dose_at("08:00", "diazepam", "1"), dose_at("21:00", "diazepam", "10")},
                           {dose_at("21:00", "diazepam", "10")}));
    EXPECT_EQ(steps_with(dropped, "dose-time-dropped"), Steps{1});
    EXPECT_EQ(dropped.findings.front().flag.args.at("gap_h"), "24");
}

TEST(Review, OfTwoAgentsEachAndTheTotalKeepTheCap) {
    const Formulary formulary = load_formulary(resources_folder() / "formulary.json").value();
    const auto judge = [&](const ReviewInput& input) {
        return review_schedule(input, formulary, shipped_rules()).value();
    };
    // 1 mg of lorazepam is 5 mg of diazepam: 15 mg in all.
    const std::vector<DoseTime> before{dose_at("08:00", "diazepam", "5"), dose_at("22:00", "lorazepam", "2")};
    const Review one = judge(two_entries(before, {dose_at("08:00", "diazepam", "4"), before[1]}));
    EXPECT_EQ(one.steps[1].diazepam->usual, mg("14"));
    EXPECT_EQ(steps_with(one, "cut-over-cap"), Steps{1});  // 20 % of diazepam, 6.7 % of the total
    const Review crossed =
        judge(two_entries(before, {dose_at("08:00", "diazepam", "10"), dose_at("22:00", "lorazepam", "1")}));
    EXPECT_TRUE(crossed.keeps_the_cap);
    EXPECT_TRUE(crossed.findings.empty());
}

TEST(Review, ATotalThatRisesAndADayThatIsSharedOtherwiseAreNamed) {
    EXPECT_EQ(steps_with(judged(schedule_of("diazepam", {"10", "9", "10", "9"}, 14)), "total-rises"),
              Steps{2});
    const Review shared =
        judged(two_entries({dose_at("08:00", "diazepam", "5"), dose_at("21:00", "diazepam", "5")},
                           {dose_at("08:00", "diazepam", "3"), dose_at("21:00", "diazepam", "7")}));
    EXPECT_EQ(steps_with(shared, "redistributed"), Steps{1});
    EXPECT_EQ(shared.findings.front().flag.args.at("at"), "21:00");
    EXPECT_TRUE(steps_with(shared, "total-rises").empty());
}

TEST(Review, CutsCloserThanTheIntervalAndAStartInThePastAreNamed) {
    ReviewInput input = schedule_of("diazepam", {"10", "9.5", "9", "8.5"}, 7);
    EXPECT_EQ(steps_with(judged(input), "step-interval"), (Steps{2, 3}));
    EXPECT_TRUE(steps_with(judged(input), "start-in-past").empty());
    input.today = day_at(2027, 2, 1);
    EXPECT_EQ(steps_with(judged(input), "start-in-past"), Steps{1});
    input.today = day_at(2027, 1, 11);
    EXPECT_TRUE(steps_with(judged(input), "start-in-past").empty());
}

TEST(Review, TwoAgentsCutAtOnceAreNamedWithTheirTotal) {
    const Formulary formulary = load_formulary(resources_folder() / "formulary.json").value();
    const std::vector<DoseTime> before{dose_at("08:00", "diazepam", "10"),
                                       dose_at("22:00", "lorazepam", "2")};
    const ReviewInput input =
        two_entries(before, {dose_at("08:00", "diazepam", "9"), dose_at("22:00", "lorazepam", "1.8")});
    const Review review = review_schedule(input, formulary, shipped_rules()).value();
    EXPECT_EQ(steps_with(review, "two-agents-fall"), Steps{1});
    EXPECT_TRUE(review.keeps_the_cap);  // 10 % of each and of 20 mg of diazepam
    EXPECT_EQ(steps_with(review_schedule(input, Formulary{}, shipped_rules()).value(), "no-equivalence"),
              (Steps{0, 0}));
}

TEST(Review, APercentIsPrintedWithTheDigitsThatMakeItTrue) {
    const Review review = judged(schedule_of("diazepam", {"10", "8.998"}, 14));  // 10.02 %
    ASSERT_EQ(steps_with(review, "cut-over-cap"), Steps{1});
    EXPECT_EQ(review.findings.front().flag.args.at("percent"), "10.02");
    EXPECT_EQ(review.findings.front().flag.args.at("cap"), "10");
}

TEST(Review, AmountsThatNoProductMakesAreNamed) {
    ReviewInput input = schedule_of("diazepam", {"10", "9.3"}, 14);
    input.products = {solid("diazepam", "2", Cuts::halves)};
    EXPECT_EQ(steps_with(judged(input), "not-makeable"), Steps{1});
}

TEST(Review, ADisorderedScheduleIsRefused) {
    ReviewInput input = schedule_of("diazepam", {"10", "9"}, 14);
    std::swap(input.schedule[0].from, input.schedule[1].from);
    EXPECT_TRUE(has_fault(review_schedule(input, Formulary{}, shipped_rules()), "review-order"));
    EXPECT_TRUE(has_fault(review_schedule(ReviewInput{}, Formulary{}, shipped_rules()), "review-empty"));
}

}  // namespace
}  // namespace evenfall
