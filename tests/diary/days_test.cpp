// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/days.h"

#include <gtest/gtest.h>

#include "diary/dose_times.h"

namespace evenfall {
namespace {

LocalTime at(const char* text) {
    return *parse_local_time(text, "");
}

Intake dose(const char* when, int micrograms = 1000) {
    return {at(when), "lorazepam", Dose::micrograms(micrograms), TakenWhy::unsaid, ""};
}

constexpr ClockTime kFour{240};

TEST(DiaryDays, RunFromFourToFour) {
    EXPECT_EQ(diary_day_of(at("2026-12-02T03:59"), kFour), day_at(2026, 12, 1));
    EXPECT_EQ(diary_day_of(at("2026-12-02T04:00"), kFour), day_at(2026, 12, 2));
    EXPECT_EQ(time_in_diary_day(day_at(2026, 12, 1), {30}, kFour), at("2026-12-02T00:30"));
    EXPECT_EQ(minutes_into_day({30}, kFour), 1230);
}

TEST(DiaryDays, TellUnknownFromKeptAndRunning) {
    Diary diary;
    diary.intake = {dose("2026-12-05T08:00"), dose("2026-12-01T08:00"), dose("2026-12-02T00:30")};
    diary.ratings = {{at("2026-12-03T10:00"), "anxiety", 4}};
    diary.kept_empty = {day_at(2026, 12, 4)};
    const auto days = diary_days(diary, at("2026-12-05T09:00"), kFour);
    ASSERT_EQ(days.size(), 5u);
    EXPECT_EQ(days[0].known, DayKnown::recorded);
    EXPECT_EQ(days[0].intake, (std::vector<std::size_t>{1, 2}));
    EXPECT_EQ(days[1].known, DayKnown::unknown);
    EXPECT_EQ(days[2].known, DayKnown::recorded);
    EXPECT_EQ(days[3].known, DayKnown::recorded);
    EXPECT_EQ(days[4].known, DayKnown::running);
}

TEST(DiaryDays, LeaveOutWhatIsStillToCome) {
    Diary diary;
    diary.intake = {dose("2026-12-01T08:00"), dose("2027-12-01T08:00")};
    EXPECT_EQ(diary_days(diary, at("2026-12-02T09:00"), kFour).size(), 1u);
    EXPECT_TRUE(diary_days({}, at("2026-12-02T09:00"), kFour).empty());
}

TEST(DiaryDays, NameEntriesByTimeAgentAndAmount) {
    EXPECT_EQ(entry_name(dose("2026-12-01T08:05", 1500)), "2026-12-01T08:05 lorazepam 1.5 mg");
    EXPECT_EQ(entry_name(Rating{at("2026-12-01T13:00"), "anxiety", 4}), "2026-12-01T13:00 anxiety 4");
}

TEST(DoseTimes, AreFoundAcrossMidnight) {
    const auto groups = group_clock_times({{1435}, {5}, {10}, {480}, {490}}, 2);
    ASSERT_EQ(groups.size(), 2u);
    EXPECT_EQ(groups[0].centre, ClockTime{5});
    EXPECT_EQ(groups[0].members, (std::vector<std::size_t>{0, 1, 2}));
    EXPECT_EQ(groups[1].centre, ClockTime{485});
}

TEST(DoseTimes, AreFewerWhereThereAreFewerMinutes) {
    EXPECT_EQ(group_clock_times({{480}, {480}}, 3).size(), 1u);
    EXPECT_TRUE(group_clock_times({}, 3).empty());
}

TEST(DoseTimes, OfTheUsualDayComeWithTheUsualAmounts) {
    std::vector<Intake> intake;
    std::vector<std::vector<std::size_t>> by_day;
    const auto day = [&](std::vector<Intake> entries) {
        by_day.emplace_back();
        for (const Intake& each : entries) {
            by_day.back().push_back(intake.size());
            intake.push_back(each);
        }
    };
    day({dose("2026-12-01T08:00"), dose("2026-12-01T22:00", 1500)});
    day({dose("2026-12-02T08:20"), dose("2026-12-02T22:10", 1500)});
    day({dose("2026-12-03T07:50"), dose("2026-12-03T15:00"), dose("2026-12-03T21:50", 2000)});
    const Regimen found = usual_regimen(intake, by_day, "lorazepam");
    ASSERT_EQ(found.doses.size(), 2u);
    EXPECT_EQ(found.doses[1].at, ClockTime{1320});
    EXPECT_EQ(found.doses[1].amount, Dose::micrograms(1500));
    EXPECT_TRUE(usual_regimen(intake, by_day, "diazepam").doses.empty());
}

}  // namespace
}  // namespace evenfall
