// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "response/response.h"
#include "response/support.h"

namespace evenfall {
namespace {

using namespace testing_response;

std::set<Act> acts(const ResponseView& view) {
    std::set<Act> all;
    for (const Suggestion& each : view.suggestions) all.insert(each.act);
    return all;
}

ResponseView with_answer(const std::string& question, const std::string& answer) {
    return one_cut(2, 20).call(kFirstStep + days(20), question, answer).view();
}

TEST(Suggestions, AfterAQuietStepTheNextCutMayBeReviewed) {
    const auto view = one_cut(2, 20).view();
    EXPECT_TRUE(rests_on(suggested(view, Act::eligible_for_review), "decide-eligible"));
    EXPECT_EQ(suggested(view, Act::eligible_for_review)->urgency, ResponseUrgency::routine);
    EXPECT_EQ(suggested(view, Act::hold), nullptr);
    EXPECT_TRUE(view.decision.empty());
}

TEST(Suggestions, TheFirstCutIsNotJudgedBeforeFourteenDays) {
    const auto early = one_cut(2, 13).view();
    EXPECT_EQ(suggested(early, Act::eligible_for_review), nullptr);
    EXPECT_TRUE(rests_on(suggested(early, Act::contact_again), "decide-too-early"));
    EXPECT_NE(suggested(one_cut(2, 14).view(), Act::eligible_for_review), nullptr);
}

TEST(Suggestions, QuestionsThatWereNotAskedStandBesideAReview) {
    Course course = one_cut(2, 20);
    course.input.checkins.clear();
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::contact_again), "decide-unasked"));
    EXPECT_EQ(suggested(one_cut(2, 20).view(), Act::contact_again), nullptr);
}

TEST(Suggestions, ARiseInTheFirstDaysAsksForAnotherContact) {
    const auto view = one_cut(4, 6).view();
    EXPECT_TRUE(rests_on(suggested(view, Act::contact_again), "decide-wait"));
    EXPECT_EQ(suggested(view, Act::eligible_for_review), nullptr);
}

TEST(Suggestions, ARiseThatHasNotSettledAtThePlannedDateIsHeld) {
    const auto view = one_cut(4, 14).view();
    EXPECT_TRUE(rests_on(suggested(view, Act::hold), "decide-hold"));
    EXPECT_EQ(suggested(view, Act::eligible_for_review), nullptr);
    EXPECT_EQ(suggested(view, Act::larger_cut), nullptr);
}

TEST(Suggestions, AfterTwoHoldsASmallerAndLaterCutIsOffered) {
    Course course = one_cut(4, 43);
    course.input.baseline = Baseline{kFirstStep - days(30), {{"anxiety", 1}}, ""};
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::smaller_cut), "decide-two-holds"));
    EXPECT_TRUE(rests_on(suggested(view, Act::later_cut), "decide-two-holds"));
}

TEST(Suggestions, AfterARiseThatSettledTheNextCutIsSmallerOrLater) {
    Course course;
    course.step(kFirstStep, 3600).rate("anxiety", kFirstStep - days(14), kFirstStep, 2);
    course.rate("anxiety", kFirstStep, kFirstStep + days(10), 4);
    course.rate("anxiety", kFirstStep + days(10), kFirstStep + days(21), 2).at(kFirstStep + days(20));
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::smaller_cut), "decide-slower"));
    EXPECT_TRUE(rests_on(suggested(view, Act::later_cut), "decide-slower"));
    EXPECT_NE(suggested(view, Act::eligible_for_review), nullptr);
    EXPECT_EQ(suggested(view, Act::larger_cut), nullptr);
}

TEST(Suggestions, WhatCannotBeBorneIsCalledToday) {
    const auto view = one_cut(6, 5).view();
    ASSERT_NE(suggested(view, Act::call_today), nullptr);
    EXPECT_EQ(view.suggestions.front().act, Act::call_today);
    EXPECT_TRUE(rests_on(suggested(view, Act::call_today), "decide-marked"));
    EXPECT_EQ(suggested(view, Act::hold)->urgency, ResponseUrgency::today);
    EXPECT_FALSE(view.decision.empty()) << "the options are laid out";
}

TEST(Suggestions, AGoodTestPermitsTheShareThatWasPlanned) {
    Course course = one_cut(2, 20);
    course.input.taken.front().regimen = day_of_lorazepam(3800);
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::larger_cut), "decide-good-test"));
    course.input.taken.front().regimen = day_of_lorazepam(3600);
    EXPECT_EQ(suggested(course.view(), Act::larger_cut), nullptr)
        << "never above what was planned on one test";
}

/// Four judged cuts of 5 %, each followed by the given severity for nine days.
ResponseView four_cuts(int severity, const Share& target) {
    Course course(8000);
    course.input.target = target;
    course.rate("anxiety", kFirstStep - days(14), kFirstStep, 2);
    std::int64_t daily = 8000;
    for (int step = 0; step < 4; ++step) {
        const Day starts = kFirstStep + days(28 * step);
        daily = daily * 95 / 100;
        course.step(starts, daily).rate("anxiety", starts, starts + days(9), severity);
        course.rate("anxiety", starts + days(9), starts + days(28), 2);
    }
    return course.at(kFirstStep + days(4 * 28 - 1)).quiet_call(kFirstStep + days(4 * 28 - 1)).view();
}

TEST(Suggestions, AGoodCoursePermitsALargerCutWithinTheCap) {
    const auto view = four_cuts(2, Share::percent(5));
    EXPECT_TRUE(rests_on(suggested(view, Act::larger_cut), "sensitivity"));
    EXPECT_LE(*view.sensitivity.proposed_target, Share::percent(10));
}

TEST(Suggestions, APoorCourseProposesASmallerShare) {
    const auto view = four_cuts(4, Share::percent(5));
    EXPECT_LT(*view.sensitivity.proposed_target, Share::percent(5));
    EXPECT_NE(suggested(view, Act::smaller_cut), nullptr);
    EXPECT_EQ(suggested(view, Act::larger_cut), nullptr);
}

TEST(Suggestions, ADoseThatWasMissedIsAnUnplannedChange) {
    Course course = one_cut(2, 20);
    for (int day = 14; day < 20; ++day)
        course.input.diary.intake.push_back({at_clock(kFirstStep + days(day), {8 * 60}), "lorazepam",
                                             Dose::micrograms(3600), TakenWhy::unsaid, ""});
    EXPECT_NE(suggested(course.view(), Act::eligible_for_review), nullptr);
    course.input.diary.intake[3].amount = Dose::micrograms(7200);
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::hold), "decide-doses-missed"));
    EXPECT_EQ(suggested(view, Act::hold)->because.front().entries.front(), print_day(kFirstStep + days(17)));
    EXPECT_EQ(suggested(view, Act::eligible_for_review), nullptr);
}

TEST(Suggestions, AScaleThatGrewWorseIsLookedAtFirst) {
    Course course = one_cut(2, 20);
    course.form("GAD-7", kFirstStep - days(3), {1, 1, 1, 1, 1, 1, 1});
    course.form("GAD-7", kFirstStep + days(15), {2, 2, 2, 2, 1, 1, 1});
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::hold), "scale-worse"));
    EXPECT_EQ(suggested(view, Act::eligible_for_review), nullptr);
}

TEST(Suggestions, BeforeTheFirstStepAndAfterTheLastThereIsNoNextCut) {
    Course before;
    before.rate("anxiety", kFirstStep - days(14), kFirstStep, 2);
    EXPECT_TRUE(rests_on(suggested(before.view(), Act::contact_again), "response-no-step"));
    Course off = one_cut(2, 40);
    off.input.taken.front().regimen = {};
    EXPECT_EQ(acts(off.view()), std::set<Act>{Act::contact_again});
    Course protracted = one_cut(4, 40);
    protracted.input.taken.front().regimen = {};
    EXPECT_TRUE(rests_on(suggested(protracted.view(), Act::contact_again), "decide-protracted"));
}

TEST(Suggestions, ADoseThatWentUpIsJudgedAfreshAndOtherHoursAreNoChange) {
    Course up = one_cut(2, 30);
    up.step(kFirstStep + days(20), 4000);
    EXPECT_TRUE(rests_on(suggested(up.view(), Act::contact_again), "decide-changed-since"));
    EXPECT_EQ(suggested(up.view(), Act::eligible_for_review), nullptr);
    Course spread = one_cut(2, 30);
    DatedRegimen halves{kFirstStep + days(10), {}};
    for (const int hour : {8, 20})
        halves.regimen.doses.push_back({{hour * 60}, "lorazepam", Dose::micrograms(1800), "", ""});
    spread.input.taken.push_back(halves);
    ASSERT_EQ(spread.view().steps.size(), 1u);
    EXPECT_NE(suggested(spread.view(), Act::eligible_for_review), nullptr);
}

TEST(RedFlags, EachQuestionIsRaisedByYesAndOnlyByYes) {
    for (const auto& [id, rule] : rules().all()) {
        if (rule.group != "red-flag") continue;
        std::string question = id.substr(9);
        std::ranges::replace(question, '-', ' ');
        const auto yes = with_answer(question, "yes");
        const bool emergency = rules().whole("flag-levels", id) == 1;
        EXPECT_TRUE(rests_on(suggested(yes, emergency ? Act::emergency : Act::call_today), id)) << id;
        EXPECT_TRUE(with_answer(question, "no").red_flags.empty()) << id;
        EXPECT_TRUE(with_answer(question, "").red_flags.empty()) << id;
    }
}

TEST(RedFlags, OutrankEverything) {
    const std::set<Act> planning = {Act::look_at_spacing, Act::smaller_cut, Act::later_cut, Act::larger_cut,
                                    Act::eligible_for_review};
    for (int severity : {0, 2, 4, 9})
        for (int seen : {3, 14, 40}) {
            const auto view = one_cut(severity, seen).call(kFirstStep + days(seen), "seizure", "yes").view();
            ASSERT_EQ(view.suggestions.front().act, Act::emergency);
            EXPECT_EQ(view.suggestions.front().urgency, ResponseUrgency::emergency);
            for (const Act act : acts(view)) EXPECT_FALSE(planning.contains(act)) << word(act);
        }
}

TEST(RedFlags, StandUntilALaterCallSaysNo) {
    Course course = one_cut(2, 20);
    course.input.checkins.clear();
    course.call(kFirstStep + days(10), "suicidal thoughts", "yes");
    EXPECT_NE(suggested(course.view(), Act::call_today), nullptr);
    course.call(kFirstStep + days(12), "suicidal thoughts", "not asked");
    EXPECT_NE(suggested(course.view(), Act::call_today), nullptr) << "not asked is not a no";
    course.call(kFirstStep + days(9), "suicidal thoughts", "no");
    EXPECT_NE(suggested(course.view(), Act::call_today), nullptr) << "an earlier no does not count";
    course.call(kFirstStep + days(10), "suicidal thoughts", "no");
    EXPECT_NE(suggested(course.view(), Act::call_today), nullptr)
        << "of two calls at one time the yes counts";
    course.call(kFirstStep + days(14), "suicidal thoughts", "no");
    EXPECT_EQ(suggested(course.view(), Act::call_today), nullptr);
}

TEST(RedFlags, Item9CallsTodayAndOpensAPrescribersDecision) {
    Course course = one_cut(2, 20);
    course.form("PHQ-9", kFirstStep + days(20), {0, 0, 0, 0, 0, 0, 0, 0, 1});
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::call_today), "phq-9-item-9"));
    EXPECT_EQ(view.suggestions.front().urgency, ResponseUrgency::today);
    EXPECT_EQ(suggested(view, Act::eligible_for_review), nullptr);
    EXPECT_FALSE(view.decision.empty());
}

TEST(RedFlags, ABlankItem9IsNotANo) {
    Course course = one_cut(2, 20);
    course.form("PHQ-9", kFirstStep + days(20), {0, 0, 0, 0, 0, 0, 0, 0, kBlankItem});
    const auto view = course.view();
    EXPECT_TRUE(rests_on(suggested(view, Act::contact_again), "phq-9-item-9-blank"));
    EXPECT_EQ(view.suggestions.front().urgency, ResponseUrgency::today);
}

TEST(RedFlags, AkathisiaAndIntentFromTotalsAreEmergenciesThatACallDoesNotClear) {
    EXPECT_NE(suggested(one_cut(2, 20).form("BARS", kFirstStep + days(19), {5}).view(), Act::emergency),
              nullptr);
    EXPECT_NE(suggested(one_cut(2, 20).form("C-SSRS", kFirstStep + days(20), {4}).view(), Act::emergency),
              nullptr);
    EXPECT_NE(suggested(one_cut(2, 20).form("BARS", kFirstStep + days(20), {2}).view(), Act::call_today),
              nullptr);
}

/// A course in which everything is drawn at random.
ResponseInput any_course(std::uint64_t seed) {
    std::mt19937_64 random(seed);
    const auto pick = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    Course course(pick(500, 8000));
    std::int64_t daily = daily_amount(course.input.before, "lorazepam").ng() / 1000;
    Day starts = kFirstStep;
    for (int step = pick(0, 6); step > 0; --step, starts += days(pick(3, 30)))
        course.step(starts, daily = pick(0, 20) == 0 ? 0 : daily * pick(70, 105) / 100);
    for (Day day = kFirstStep - days(20); day < starts + days(30); day += days(pick(1, 3)))
        course.rate_at(at_clock(day, {pick(0, 1439)}), pick(0, 1) ? "anxiety" : "tremor", pick(0, 10));
    if (pick(0, 3) == 0)
        course.call(starts, pick(0, 1) ? "cannot sit still" : "suicidal thoughts", pick(0, 1) ? "yes" : "no");
    if (pick(0, 2) == 0) course.form("PHQ-9", starts, {1, 1, 1, 1, 1, 1, 1, 1, pick(kBlankItem, 3)});
    return course.at(starts + days(pick(0, 40))).input;
}

TEST(SuggestionsOnAnyCourse, AreNeverEmptyHaveReasonsAndNeverGoBackUp) {
    const std::set<std::string> known = {"emergency",
                                         "call today",
                                         "hold",
                                         "contact again",
                                         "look at spacing",
                                         "smaller cut",
                                         "later cut",
                                         "larger cut within the cap",
                                         "eligible for review of the next cut"};
    for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
        const auto view = assess(any_course(seed));
        ASSERT_FALSE(view.suggestions.empty()) << seed;
        for (std::size_t i = 0; i < view.suggestions.size(); ++i) {
            const Suggestion& each = view.suggestions[i];
            ASSERT_TRUE(known.contains(word(each.act))) << word(each.act);
            ASSERT_FALSE(each.because.empty()) << seed;
            ASSERT_LE(view.suggestions[i > 0 ? i - 1 : 0].urgency, each.urgency) << seed;
            for (const Flag& flag : each.because) {
                ASSERT_NE(flag.rule, "option-previous-dose") << seed;
                ASSERT_FALSE(rules().source(flag.rule).empty()) << flag.rule;
                for (const char* language : {"en", "es"})
                    ASSERT_EQ(rules().sentence(flag, language).find('{'), std::string::npos)
                        << seed << rules().sentence(flag, language);
            }
        }
        ASSERT_TRUE(view.red_flags.empty() || !suggested(view, Act::eligible_for_review)) << seed;
        for (const StepResponse& step : view.steps)
            for (const Flag& flag : step.says)
                ASSERT_EQ(rules().sentence(flag).find('{'), std::string::npos) << rules().sentence(flag);
    }
}

}  // namespace
}  // namespace evenfall
