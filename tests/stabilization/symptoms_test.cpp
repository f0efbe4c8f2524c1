// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "builder.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using std::chrono::days;
using std::chrono::minutes;

const Regimen kTwo = regimen("alprazolam", {{8, 1}, {20, 1}});
const Day kFirst = day_at(2026, 10, 5);

/// Doses at wandering hours, anxiety rated six times a day; late in the interval it is worse by `rise`.
Diary wandering(std::uint64_t seed, int rise) {
    DiaryBuilder builder(seed);
    std::vector<LocalTime> doses;
    for (int day = 0; day < 28; ++day)
        for (const int hour : {8, 20}) {
            const int minute = hour * 60 + builder.between(-210, 210);
            builder.dose(kFirst + days(day), minute, "alprazolam", 1);
            doses.push_back(LocalTime(kFirst + days(day)) + minutes(minute));
        }
    for (std::size_t i = 0; i + 1 < doses.size(); ++i) {
        const int length = static_cast<int>((doses[i + 1] - doses[i]).count() / 60);
        for (int each = 0; each < 3; ++each) {
            const int since = builder.between(10, length - 10);
            builder.rating(doses[i] + minutes(since), "anxiety",
                           3 + (2 * since > length ? rise : 0) + builder.between(-1, 1));
        }
    }
    return builder.diary;
}

TEST(Symptoms, ClusteredLateInTheIntervalAreShown) {
    const auto result = check(input_of(wandering(21, 3), {{{}, kTwo}}));
    EXPECT_EQ(result.between_dose.answer, BetweenDoseAnswer::shown);
    EXPECT_GT(result.between_dose.late_over_early, 0.8);
    const Flag* shown = flag(result, "between-dose-shown");
    ASSERT_NE(shown, nullptr);
    EXPECT_TRUE(names(shown, "anxiety"));
    EXPECT_EQ(static_cast<int>(result.ratings.size()), result.between_dose.ratings);
    EXPECT_TRUE(std::any_of(result.proposals.begin(), result.proposals.end(),
                            [](const Proposal& each) { return each.kind == ProposalKind::crossover; }));
}

TEST(Symptoms, ShuffledAreNotShown) {
    int shown = 0;
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        Diary diary = wandering(21, 3);
        DiaryBuilder random(seed);
        for (std::size_t left = diary.ratings.size(); left > 1; --left) {
            const auto other = static_cast<std::size_t>(random.between(0, static_cast<int>(left) - 1));
            std::swap(diary.ratings[left - 1].severity, diary.ratings[other].severity);
        }
        const auto result = check(input_of(diary, {{{}, kTwo}}));
        shown += result.between_dose.answer == BetweenDoseAnswer::shown;
    }
    EXPECT_LE(shown, 2);  // 5 % of 10 expected
}

TEST(Symptoms, AtFixedHoursCannotBeSeparatedFromTimeOfDay) {
    const Regimen once = regimen("alprazolam", {{8, 2}});
    DiaryBuilder builder(22);
    builder.days_of(once, 20, 0);
    for (int day = 0; day < 20; ++day)
        for (const int hour : {10, 14, 22, 26})
            builder.rating(LocalTime(kFirst + days(day)) + minutes(60 * hour), "anxiety", hour > 20 ? 6 : 3);
    const auto result = check(input_of(builder.diary, {{{}, once}}));
    EXPECT_EQ(result.between_dose.answer, BetweenDoseAnswer::cannot_be_separated);
    EXPECT_EQ(flag(result, "between-dose-clock")->args.count("p_value"), 1u);
    EXPECT_LT(result.between_dose.p_value, 1);
}

TEST(Symptoms, RatedAtTheMinuteOfADoseBelongToTheIntervalBefore) {
    DiaryBuilder builder(23);
    builder.days_of(kTwo, 8, 0);
    builder.rating(LocalTime(kFirst + days(2)) + minutes(20 * 60), "anxiety", 7);
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    ASSERT_EQ(result.ratings.size(), 1u);
    EXPECT_DOUBLE_EQ(result.ratings[0].hours_since_dose, 12);
    EXPECT_TRUE(result.ratings[0].late);
}

TEST(Symptoms, CountRealHoursOverAClockChange) {
    DiaryBuilder builder(24, day_at(2026, 10, 28));
    builder.days_of(kTwo, 8, 0);  // clocks go back on 1 November at 02:00
    builder.rating(at("2026-11-01T07:00"), "anxiety", 7);
    const auto result = check(input_of(builder.diary, {{{}, kTwo}}));
    ASSERT_EQ(result.ratings.size(), 1u);
    EXPECT_DOUBLE_EQ(result.ratings[0].hours_since_dose, 12);
    EXPECT_DOUBLE_EQ(result.ratings[0].interval_h, 13);
}

}  // namespace
}  // namespace evenfall
