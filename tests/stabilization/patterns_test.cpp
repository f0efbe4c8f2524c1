// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "builder.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using std::chrono::days;

const Regimen kTwo = regimen("lorazepam", {{8, 1}, {20, 1}});
const Day kFirst = day_at(2026, 10, 5);  // a Monday

TEST(Patterns, NameMissedMornings) {
    DiaryBuilder builder(31);
    for (int day = 0; day < 20; ++day) {
        if (day % 4 != 1) builder.dose(kFirst + days(day), 480, "lorazepam", 1);
        builder.dose(kFirst + days(day), 1200, "lorazepam", 1);
    }
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    EXPECT_EQ(result.verdict, Verdict::uneven);
    ASSERT_NE(flag(result, "mornings-missed"), nullptr);
    EXPECT_EQ(flag(result, "mornings-missed")->entries.size(), 5u);
    EXPECT_TRUE(names(flag(result, "mornings-missed"), "2026-10-06T08:00"));
}

TEST(Patterns, NameWeekendsThatAreDifferent) {
    DiaryBuilder builder(32);
    for (int day = 0; day < 28; ++day) {
        const bool free = weekday_from_monday(kFirst + days(day)) >= 5;
        builder.dose(kFirst + days(day), free ? 690 : 480, "lorazepam", 1);
        builder.dose(kFirst + days(day), 1200, "lorazepam", free ? 1.5 : 1);
    }
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    ASSERT_NE(flag(result, "weekends-different"), nullptr);
    EXPECT_TRUE(names(flag(result, "weekends-different"), "2026-10-10T11:30"));
    EXPECT_EQ(result.verdict, Verdict::uneven);
}

TEST(Patterns, NameCatchUpDoublesAndDoNotTakeThemForDuplicates) {
    DiaryBuilder builder(33);
    for (int day = 0; day < 20; ++day) {
        const bool forgot = day % 8 == 3;
        if (!forgot) builder.dose(kFirst + days(day), 480, "lorazepam", 1);
        builder.dose(kFirst + days(day), 1200, "lorazepam", 1);
        if (forgot) builder.dose(kFirst + days(day), 1203, "lorazepam", 1, TakenWhy::forgot);
    }
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    ASSERT_NE(flag(result, "catch-up-doubles"), nullptr);
    EXPECT_EQ(flag(result, "catch-up-doubles")->entries.size(), 3u);
    EXPECT_EQ(flag(result, "likely-duplicate"), nullptr);
}

TEST(Patterns, NameASteadyClimb) {
    DiaryBuilder builder(34);
    for (int day = 0; day < 24; ++day) {
        builder.dose(kFirst + days(day), 480, "lorazepam", 1);
        builder.dose(kFirst + days(day), 1200, "lorazepam", 1 + 0.25 * (day / 6));
    }
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    ASSERT_NE(flag(result, "steady-climb"), nullptr);
    EXPECT_GT(result.measures.trend_per_week, 0.2);
    EXPECT_NE(result.verdict, Verdict::steady);
}

TEST(Patterns, NameALongNightGapAndStaySteady) {
    const Regimen daytime = regimen("lorazepam", {{8, 1}, {13, 1}, {18, 1}});
    DiaryBuilder builder(35);
    builder.days_of(daytime, 14, 10);
    const auto result = check(input_of(builder.diary, {{{}, daytime}}));
    ASSERT_NE(flag(result, "night-gap"), nullptr);
    EXPECT_EQ(flag(result, "night-gap")->args.at("night_h"), "14");
    EXPECT_EQ(result.verdict, Verdict::steady);
}

TEST(Patterns, CallDoseTimesSpreadOverTheClockUneven) {
    DiaryBuilder builder(36);
    builder.days_of(regimen("lorazepam", {{14, 2}}), 20, 400);
    const auto result = check(input_of(builder.diary, {{{}, regimen("lorazepam", {{14, 2}})}}));
    ASSERT_NE(flag(result, "times-irregular"), nullptr);
    EXPECT_EQ(result.verdict, Verdict::uneven);
    EXPECT_EQ(result.measures.days_as_intended, 20);
}

TEST(Patterns, FlagGapsOverOneAndAHalfTimesTheIntendedWithBothEntries) {
    DiaryBuilder builder(37);
    builder.days_of(kTwo, 10, 0);
    std::erase_if(builder.diary.intake,
                  [](const Intake& each) { return each.taken_at == at("2026-10-07T20:00"); });
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    const Flag* gap = flag(result, "long-gap");
    ASSERT_NE(gap, nullptr);
    EXPECT_EQ(gap->entries, (std::vector<std::string>{"2026-10-07T08:00 lorazepam 1 mg",
                                                      "2026-10-08T08:00 lorazepam 1 mg"}));
    EXPECT_DOUBLE_EQ(result.measures.longest_interval_h, 24);
}

TEST(Patterns, AreSaidInSentencesWithNothingLeftOpen) {
    DiaryBuilder builder(38);
    for (int day = 0; day < 28; ++day) {
        if (builder.chance(60))
            builder.dose(kFirst + days(day), 480 + builder.between(-99, 99), "lorazepam", 1);
        builder.dose(kFirst + days(day), 1200 + builder.between(-99, 99), "lorazepam",
                     builder.chance(30) ? 2 : 1);
    }
    const auto result = check(input_of(builder.diary, {}));
    std::vector<Flag> all = result.flags;
    for (const Gate& each : result.readiness) all.push_back(each.says);
    for (const Proposal& each : result.proposals) all.insert(all.end(), each.says.begin(), each.says.end());
    all.insert(all.end(), result.no_proposal.begin(), result.no_proposal.end());
    for (const Flag& each : all)
        for (const char* language : {"en", "es"}) {
            const std::string sentence = rules().sentence(each, language);
            EXPECT_EQ(sentence.find_first_of("[{"), std::string::npos) << sentence;
        }
}

}  // namespace
}  // namespace evenfall
