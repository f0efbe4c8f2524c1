// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "builder.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using std::chrono::days;

const Regimen kThree = regimen("lorazepam", {{8, 1}, {14, 0.5}, {22, 1}});
const Day kFirst = day_at(2026, 10, 5);

/// A person who forgets, doubles and takes extra ones for symptoms.
Diary erratic_diary(std::uint64_t seed) {
    DiaryBuilder builder(seed);
    for (int day = 0; day < 21; ++day) {
        const Day on = kFirst + days(day);
        if (!builder.chance(45)) builder.dose(on, 480 + builder.between(-90, 200), "lorazepam", 1);
        if (!builder.chance(35)) builder.dose(on, 840 + builder.between(-120, 150), "lorazepam", 0.5);
        if (builder.chance(40))
            builder.dose(on, 1080 + builder.between(-60, 60), "lorazepam", 1, TakenWhy::symptoms);
        builder.dose(on, 1320 + builder.between(-60, 110), "lorazepam", builder.chance(30) ? 2 : 1);
    }
    return builder.diary;
}

TEST(Verdict, SaysErraticAndNamesTheEntries) {
    const auto result = check(input_of(erratic_diary(4), {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::erratic);
    const Flag* made_it = flag(result, "erratic-limits");
    ASSERT_NE(made_it, nullptr);
    EXPECT_EQ(result.flags.front(), *made_it);
    const Flag* extra = flag(result, "doses-extra");
    const Flag* missed = flag(result, "doses-missed");
    ASSERT_NE(extra, nullptr);
    ASSERT_NE(missed, nullptr);
    EXPECT_EQ(static_cast<int>(extra->entries.size()), result.measures.extra);
    EXPECT_EQ(static_cast<int>(missed->entries.size()), result.measures.missed);
    const Diary diary = erratic_diary(4);
    for (const DayRow& row : result.rows) {
        for (const RowEntry& entry : row.entries) {
            if (!row.judged || entry.match != EntryMatch::extra) continue;
            EXPECT_TRUE(names(made_it, entry_name(diary.intake[entry.intake])));
        }
    }
}

TEST(Verdict, SaysSteadyOfTheSameDiaryMadeRegular) {
    DiaryBuilder builder(4);
    builder.days_of(kThree, 21, 25);
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.days_as_intended, 21);
    EXPECT_EQ(result.measures.missed + result.measures.extra + result.measures.late, 0);
    EXPECT_EQ(result.days, 21);
    EXPECT_EQ(result.dose_times, DoseTimes::given);
    EXPECT_EQ(result.unit, "mg");
}

TEST(Verdict, FindsTheDoseTimesWhereNoneAreGiven) {
    DiaryBuilder builder(5);
    builder.days_of(kThree, 14, 20);
    const auto result = check(input_of(builder.diary, {}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.dose_times, DoseTimes::found);
    EXPECT_NE(flag(result, "dose-times-found"), nullptr);
    ASSERT_EQ(result.held_against.size(), 1u);
    ASSERT_EQ(result.held_against[0].regimen.doses.size(), 3u);
    EXPECT_LE(std::abs(result.held_against[0].regimen.doses[1].at.minutes - 840), 15);
    EXPECT_EQ(result.held_against[0].regimen.doses[1].amount, mg(0.5));
}

TEST(Verdict, CallsTheErraticDiaryErraticWithoutAnIntendedRegimenToo) {
    EXPECT_EQ(check(input_of(erratic_diary(4), {})).verdict, Verdict::erratic);
}

TEST(Verdict, SaysTooLittleUnderSevenRecordedDays) {
    DiaryBuilder builder(6);
    builder.days_of(kThree, 6, 10);
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::too_little);
    EXPECT_EQ(flag(result, "diary-days")->args.at("days"), "6");
    EXPECT_EQ(check(input_of({}, {{{}, kThree}})).verdict, Verdict::too_little);
}

TEST(Verdict, TakesUnknownDaysAsUnknown) {
    DiaryBuilder builder(7);
    builder.days_of(kThree, 7, 10);
    DiaryBuilder later(8, kFirst + days(10));
    later.days_of(kThree, 7, 10);
    builder.diary.intake.insert(builder.diary.intake.end(), later.diary.intake.begin(),
                                later.diary.intake.end());
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.unknown_days, 3);
    EXPECT_EQ(result.measures.missed, 0);
    builder.diary.kept_empty = {kFirst + days(8)};
    const auto kept = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(kept.measures.unknown_days, 2);
    EXPECT_EQ(kept.measures.missed, 3);
    EXPECT_TRUE(names(flag(kept, "day-without-doses"), "2026-10-13"));
}

TEST(Verdict, CallsTwoOffDaysInTenUneven) {
    DiaryBuilder builder(9);
    builder.days_of(kThree, 10, 10);
    std::erase_if(builder.diary.intake, [](const Intake& each) {
        const auto day = day_of(each.taken_at);
        return (day == kFirst + days(3) || day == kFirst + days(6)) && clock_of(each.taken_at).minutes < 700;
    });
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::uneven);
    EXPECT_EQ(result.measures.days_as_intended, 8);
    EXPECT_TRUE(names(flag(result, "doses-missed"), "2026-10-08T08:00 lorazepam 1 mg"));
}

TEST(Verdict, LeavesOutSlipsAndDuplicatesAndStaysSteady) {
    DiaryBuilder builder(10);
    builder.days_of(kThree, 14, 10);
    builder.diary.intake[3].amount = builder.diary.intake[3].amount * 1000;
    Intake twice = builder.diary.intake[7];
    twice.taken_at += std::chrono::minutes(2);
    builder.diary.intake.push_back(twice);
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    ASSERT_NE(flag(result, "likely-slip"), nullptr);
    ASSERT_NE(flag(result, "likely-duplicate"), nullptr);
    EXPECT_TRUE(names(flag(result, "likely-slip"), "1,000 mg"));
    EXPECT_EQ(result.measures.left_out, 2);
    EXPECT_EQ(result.measures.missed, 0);
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.total_off_intended, 0);
}

TEST(Verdict, TakesADoseWrittenPieceByPieceAsOneDose) {
    DiaryBuilder builder(18);
    for (int day = 0; day < 10; ++day) {
        builder.dose(kFirst + days(day), 480, "lorazepam", 0.5)
            .dose(kFirst + days(day), 481, "lorazepam", 0.5);
        builder.dose(kFirst + days(day), 1320, "lorazepam", 1);
    }
    const auto result = check(input_of(builder.diary, {{{}, regimen("lorazepam", {{8, 1}, {22, 1}})}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.extra + result.measures.left_out, 0);
    EXPECT_EQ(result.measures.doses, 20);
    EXPECT_EQ(flag(result, "doses-other-amount"), nullptr);
    EXPECT_NEAR(result.measures.mean_total, 2, 1e-9);
}

TEST(Verdict, IsNotMovedByARegimenThatIsStillToCome) {
    DiaryBuilder builder(19);
    builder.days_of(kThree, 14, 10);
    const Regimen later = regimen("lorazepam", {{8, 0.5}, {22, 0.5}});
    const auto result = check(input_of(builder.diary, {{{}, kThree}, {kFirst + days(60), later}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(flag(result, "planned-step"), nullptr);
    EXPECT_NEAR(result.levels.as_taken.average, 100, 3);
}

TEST(Verdict, CallsAsNeededUseErraticAndDescribesIt) {
    DiaryBuilder builder(11);
    for (int day = 0; day < 21; ++day)
        if (builder.chance(60))
            builder.dose(kFirst + days(day), builder.between(500, 1400), "lorazepam", 0.5,
                         TakenWhy::symptoms);
        else
            builder.diary.kept_empty.push_back(kFirst + days(day));
    builder.diary.use = Use::as_needed;
    const auto result = check(input_of(builder.diary, {}));
    EXPECT_EQ(result.verdict, Verdict::erratic);
    EXPECT_EQ(result.measures.days_with + result.measures.days_without, result.days);
    EXPECT_GT(result.measures.days_without, 3);
    ASSERT_NE(flag(result, "use-as-needed"), nullptr);
    EXPECT_EQ(result.measures.missed, 0);
    EXPECT_EQ(flag(result, "long-gap"), nullptr);
    EXPECT_TRUE(result.proposals.empty());
    EXPECT_EQ(result.no_proposal.front().rule, "proposal-as-needed");
    EXPECT_FALSE(gate(result, "gate-scheduled")->met);
}

TEST(Verdict, FlagsNoGapsAndProposesNoDaytimeDoseForANightlyHypnotic) {
    DiaryBuilder builder(12);
    builder.days_of(regimen("zolpidem", {{23, 10}}), 20, 40);
    builder.diary.use = Use::night_only;
    const auto result = check(input_of(builder.diary, {{{}, regimen("zolpidem", {{23, 10}})}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(flag(result, "long-gap"), nullptr);
    EXPECT_EQ(flag(result, "late-dose"), nullptr);
    EXPECT_TRUE(result.proposals.empty());
    EXPECT_TRUE(gate(result, "gate-scheduled")->met);
    builder.diary.use = Use::scheduled;
    const auto scheduled = check(input_of(builder.diary, {}));
    EXPECT_TRUE(scheduled.proposals.empty());
    EXPECT_EQ(scheduled.no_proposal.front().rule, "proposal-hypnotic");
}

TEST(Verdict, GivesNoneForUnknownUse) {
    DiaryBuilder builder(13);
    builder.days_of(kThree, 14, 10);
    builder.diary.use = Use::unknown;
    const auto result = check(input_of(builder.diary, {{{}, kThree}}));
    EXPECT_EQ(result.verdict, Verdict::too_little);
    EXPECT_EQ(result.flags.front().rule, "use-unknown");
    EXPECT_TRUE(result.proposals.empty());
}

TEST(Verdict, HoldsEachDayOfACrossoverAgainstItsOwnRegimen) {
    Regimen mixed = regimen("lorazepam", {{8, 1}});
    mixed.doses.push_back({{1320}, "diazepam", mg(5), "", ""});
    const Regimen crossed = regimen("diazepam", {{8, 5}, {22, 5}});
    const Regimen old = regimen("lorazepam", {{8, 1}, {22, 1}});
    DiaryBuilder builder(14);
    builder.days_of(old, 7, 15).days_of(mixed, 7, 15).days_of(crossed, 7, 15);
    const auto result = check(
        input_of(builder.diary, {{kFirst, old}, {kFirst + days(7), mixed}, {kFirst + days(14), crossed}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.unit, "mg diazepam");
    const double per_mg = 10 / formulary().find("lorazepam")->equivalence->usual.mg();
    EXPECT_NEAR(result.measures.mean_total, (2 * per_mg + (per_mg + 5) + 10) / 3, 1e-9);
    EXPECT_EQ(flag(result, "planned-step")->entries.size(), 2u);
    EXPECT_EQ(flag(result, "long-gap"), nullptr);
    EXPECT_FALSE(gate(result, "gate-unchanged")->met);
}

TEST(Verdict, SeesNothingLateOnDaysOf25And23Hours) {
    for (const Day first : {day_at(2026, 10, 25), day_at(2026, 3, 1)}) {
        DiaryBuilder builder(15, first);
        builder.days_of(kThree, 14, 0);
        const auto result = check(input_of(builder.diary, {{{}, kThree}}));
        EXPECT_EQ(result.verdict, Verdict::steady);
        EXPECT_EQ(result.measures.late + result.measures.early, 0);
        EXPECT_EQ(flag(result, "long-gap"), nullptr);
        EXPECT_NEAR(result.measures.longest_interval_h, first == day_at(2026, 10, 25) ? 11 : 10, 1e-9);
    }
}

TEST(Verdict, CountsADoseAfterMidnightToTheEveningBefore) {
    DiaryBuilder builder(16);
    builder.days_of(regimen("lorazepam", {{8, 1}}), 10, 0);
    for (int day = 0; day < 10; ++day)
        builder.dose(kFirst + days(day), 1440 + builder.between(-40, 40), "lorazepam", 1);
    const Regimen intended = regimen("lorazepam", {{0, 1}, {8, 1}});
    const auto result = check(input_of(builder.diary, {{{}, intended}}));
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.late, 0);
}

TEST(Verdict, KeepsTheRunningDayAndTheFutureOutOfTheMeasures) {
    DiaryBuilder builder(17);
    builder.days_of(kThree, 8, 5);
    auto input = input_of(builder.diary, {{{}, kThree}});
    input.as_of = LocalTime(kFirst + days(7)) + std::chrono::hours(10);
    const auto result = check(input);
    EXPECT_EQ(result.days, 7);
    EXPECT_EQ(result.measures.missed, 0);
    EXPECT_EQ(result.rows.back().known, DayKnown::running);
    EXPECT_EQ(flag(result, "entry-in-future")->entries.size(), 2u);
}

}  // namespace
}  // namespace evenfall
