// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/response.h"
#include "response/support.h"

namespace evenfall {
namespace {

using namespace testing_response;

bool says(const StepResponse& step, const std::string& rule) {
    return std::ranges::find(step.says, rule, &Flag::rule) != step.says.end();
}

Course with_baseline(Course course, int anxiety) {
    course.input.baseline = Baseline{kFirstStep - days(30), {{"anxiety", anxiety}}, ""};
    return course;
}

TEST(ToldApart, NothingIsSaidWithoutAClearRise) {
    EXPECT_EQ(one_cut(2, 20).view().steps.front().told_apart, ToldApart::none);
}

TEST(ToldApart, NewSymptomsAfterACutAreWithdrawal) {
    const auto step = with_baseline(one_cut(5, 40), 0).view().steps.front();
    EXPECT_EQ(step.told_apart, ToldApart::withdrawal);
    EXPECT_TRUE(says(step, "withdrawal-fresh"));
}

TEST(ToldApart, ARiseInTimeWithTheCutIsWithdrawalThoughRecurrenceIsNotExcluded) {
    const auto step = with_baseline(one_cut(5, 10), 5).view().steps.front();
    EXPECT_EQ(step.told_apart, ToldApart::withdrawal);
    EXPECT_TRUE(says(step, "withdrawal-timing"));
    EXPECT_TRUE(says(step, "told-apart-unsure"));
}

TEST(ToldApart, KnownSymptomsThatDoNotRecedeAreRecurrence) {
    const auto view = with_baseline(one_cut(4, 40), 5).view();
    EXPECT_EQ(view.steps.front().told_apart, ToldApart::recurrence);
    EXPECT_TRUE(says(view.steps.front(), "recurrence-persists"));
    EXPECT_TRUE(rests_on(suggested(view, Act::hold), "decide-recurrence"));
}

TEST(ToldApart, KnownSymptomsThatComeLateAreRecurrence) {
    Course course;
    course.step(kFirstStep, 3600).rate("anxiety", kFirstStep - days(14), kFirstStep + days(25), 2);
    course.rate("anxiety", kFirstStep + days(25), kFirstStep + days(41), 4).at(kFirstStep + days(40));
    const auto step = with_baseline(course, 6).view().steps.front();
    EXPECT_EQ(step.told_apart, ToldApart::recurrence);
    EXPECT_TRUE(says(step, "recurrence-late"));
}

TEST(ToldApart, RatingsBeforeTheFirstStepStandForABaselineThatWasNotGiven) {
    const auto view = one_cut(4, 40).view();
    EXPECT_TRUE(view.baseline_found);
    EXPECT_DOUBLE_EQ(view.baseline.at("anxiety"), 2);
    EXPECT_FALSE(with_baseline(one_cut(4, 40), 5).view().baseline_found);
}

/// Doses at varied clock times, ratings early and late in each interval; late ones are `late` and early ones
/// `early` from the first step on, all are 2 before it.
Course between_doses(int early, int late) {
    Course course;
    course.step(kFirstStep, 3600).at(kFirstStep + days(28));
    std::mt19937_64 random(3);
    std::uniform_int_distribution<int> shift(0, 11);
    std::vector<LocalTime> doses;
    for (int day = -10; day < 30; ++day)
        doses.push_back(at_clock(kFirstStep + days(day), {(4 + shift(random)) * 60}));
    for (std::size_t i = 0; i + 1 < doses.size(); ++i) {
        const bool before = doses[i] < LocalTime(kFirstStep);
        course.input.diary.intake.push_back(
            {doses[i], "lorazepam", Dose::micrograms(before ? 4000 : 3600), {}, ""});
        course.rate_at(doses[i] + std::chrono::hours(2), "anxiety", before ? 2 : early);
        course.rate_at(doses[i + 1] - std::chrono::hours(2), "anxiety", before ? 2 : late);
    }
    return course;
}

TEST(ToldApart, SymptomsThatRiseLateInTheIntervalAreBetweenDoses) {
    const auto view = between_doses(2, 6).view();
    EXPECT_EQ(view.steps.front().told_apart, ToldApart::between_doses);
    EXPECT_TRUE(rests_on(suggested(view, Act::look_at_spacing), "between-dose-shown"));
}

TEST(ToldApart, SymptomsThatRiseEarlyAndLateAreNotBetweenDosesAlone) {
    const auto view = between_doses(5, 7).view();
    EXPECT_NE(view.steps.front().told_apart, ToldApart::between_doses);
    EXPECT_NE(view.steps.front().told_apart, ToldApart::none);
}

}  // namespace
}  // namespace evenfall
