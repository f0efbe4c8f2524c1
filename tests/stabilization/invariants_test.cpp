// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "builder.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using std::chrono::days;
using std::chrono::minutes;

const std::vector<std::string> kAgents = {"lorazepam", "diazepam", "alprazolam", "zolpidem", "no such agent"};

Regimen any_regimen(DiaryBuilder& random) {
    Regimen regimen;
    const int count = random.between(0, 6);
    for (int i = 0; i < count; ++i)
        regimen.doses.push_back({{random.between(0, 1439)},
                                 kAgents[static_cast<std::size_t>(random.between(0, 4))],
                                 Dose::micrograms(125 * random.between(1, 16)),
                                 "",
                                 ""});
    std::sort(regimen.doses.begin(), regimen.doses.end());
    return regimen;
}

/// Anything that can be written down: entries out of order, doubled, absurd, on days of 23 and 25 hours.
StabilizationInput any_input(std::uint64_t seed) {
    DiaryBuilder random(seed);
    StabilizationInput input;
    const Day first = random.chance(50) ? day_at(2026, 3, 1) : day_at(2026, 10, 25);
    const int length = random.between(0, 25);
    const auto moment = [&] { return LocalTime(first) + minutes(random.between(0, 1440 * length + 1)); };
    for (int i = random.between(0, 5 * length); i > 0; --i) {
        const int scale = random.between(1, 30);
        const auto amount = scale == 1   ? Dose()
                            : scale == 2 ? mg(1000)
                                         : Dose::micrograms(125 * random.between(1, 16));
        input.diary.intake.push_back({moment(), kAgents[static_cast<std::size_t>(random.between(0, 4))],
                                      amount, static_cast<TakenWhy>(random.between(0, 4)), ""});
        if (random.chance(10)) input.diary.intake.push_back(input.diary.intake.back());
    }
    for (int i = random.between(0, 6 * length); i > 0; --i)
        input.diary.ratings.push_back(
            {moment(), random.chance(50) ? "anxiety" : "sleep", random.between(0, 10)});
    for (int i = random.between(0, 3); i > 0; --i)
        input.diary.kept_empty.push_back(first + days(random.between(-3, length + 3)));
    for (int i = random.between(0, 3); i > 0; --i)
        input.intended.push_back(
            {random.chance(30) ? Day{} : first + days(random.between(-5, length + 5)), any_regimen(random)});
    input.diary.use = static_cast<Use>(random.chance(60) ? 0 : random.between(0, 3));
    input.as_of = LocalTime(first) + minutes(random.between(0, 1440 * (length + 2)));
    if (random.chance(20)) input.judged_from = first + days(random.between(0, length + 1));
    return input;
}

void expect_rows_add_up(const StabilizationInput& input, const StabilizationCheck& result) {
    std::set<std::size_t> seen;
    for (const DayRow& row : result.rows) {
        std::set<std::size_t> taken;
        for (const RowEntry& entry : row.entries) {
            EXPECT_TRUE(seen.insert(entry.intake).second);
            if (!entry.intended) continue;
            taken.insert(*entry.intended);
            EXPECT_LT(*entry.intended, row.intended.size());
        }
        if (result.use == Use::scheduled && row.known == DayKnown::recorded) {
            EXPECT_EQ(taken.size() + row.missed.size(), row.intended.size());
        }
        for (const auto d : row.missed) EXPECT_FALSE(taken.contains(d));
    }
    std::size_t past = 0;
    for (const Intake& each : input.diary.intake) past += each.taken_at <= input.as_of;
    EXPECT_EQ(seen.size(), past);
}

TEST(Invariants, HoldForAnyDiary) {
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
        SCOPED_TRACE(seed);
        const auto input = any_input(seed);
        const auto result = check(input);
        expect_rows_add_up(input, result);
        const Measures& m = result.measures;
        EXPECT_EQ(m.days_with + m.days_without, m.recorded_days);
        EXPECT_LE(m.days_as_intended, m.recorded_days);
        EXPECT_TRUE(std::isfinite(m.total_off_intended) && std::isfinite(m.total_cv) &&
                    std::isfinite(m.trend_per_week));
        EXPECT_GE(result.between_dose.late_over_early, 0);
        EXPECT_LE(result.between_dose.late_over_early, 1);
        EXPECT_GT(result.between_dose.p_value, 0);
        for (std::size_t i = 0; i < result.levels.low.size(); ++i) {
            EXPECT_LE(result.levels.low[i], result.levels.middle[i] + 1e-9);
            EXPECT_LE(result.levels.middle[i], result.levels.high[i] + 1e-9);
        }
        for (const Flag& each : result.flags) EXPECT_NE(rules().find(each.rule), nullptr) << each.rule;
        if (m.recorded_days < 7) {
            EXPECT_EQ(result.verdict, Verdict::too_little);
        }
    }
}

TEST(Invariants, KeepTheDailyAmountInEverySpacing) {
    int proposals = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const auto input = any_input(seed);
        const auto result = check(input);
        for (const Proposal& each : result.proposals) {
            if (each.kind != ProposalKind::spacing) continue;
            ++proposals;
            EXPECT_NEAR(each.proposed.average, each.today.average, 1e-6);
            EXPECT_GT(each.proposed.trough, each.today.trough);
            EXPECT_LE(each.proposed.fluctuation, each.today.fluctuation);
            EXPECT_FALSE(formulary().find(each.drug)->hypnotic);
            for (const PlannedDose& dose : each.doses) {
                if (dose.drug != each.drug) continue;
                EXPECT_EQ(amount_of(dose.pieces), dose.amount);
            }
        }
    }
    EXPECT_GT(proposals, 10);
}

}  // namespace
}  // namespace evenfall
