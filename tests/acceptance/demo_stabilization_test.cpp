// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <fstream>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

#include "casework/desk.h"
#include "casework/record_check.h"
#include "diary/days.h"
#include "exchange/caseload_file.h"
#include "rules/texts.h"

// The check before a first cut, on people of the invented caseload.

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

const Rules& rules() {
    static const Rules loaded = Rules::load(resources_folder() / "rules.json").value();
    return loaded;
}

const CaseloadFile& shipped() {
    static const CaseloadFile read = [] {
        std::ifstream stream(EVENFALL_SOURCE_DIR "/sample_data/caseload.json", std::ios::binary);
        std::ostringstream text;
        text << stream.rdbuf();
        return read_caseload(text.str(), "caseload.json").value();
    }();
    return read;
}

/// What the check of one person of the caseload rests on.
StabilizationInput input_of(const std::string& reference) {
    const Instant loaded(shipped().as_of.time_since_epoch());
    auto log = log_in_memory("reader", [loaded] { return loaded; });
    EXPECT_TRUE(log->append(shipped().events).ok());
    Desk desk =
        Desk::open(std::move(log), formulary(), rules(), {"reader", "Reader", Role::prescriber, "L-1"})
            .value();
    for (const PatientId& patient : desk.patients()) {
        const PatientRecord& record = *desk.record(patient).value();
        if (record.person && record.person->value.reference == reference)
            return check_input_of(record, desk.course(patient, shipped().as_of).value(), shipped().as_of,
                                  usual_judged_days(rules()));
    }
    throw std::runtime_error("nobody has the reference " + reference);
}

StabilizationCheck check(const StabilizationInput& input) {
    return check_stabilization(input, formulary(), rules(), Zone::named("America/New_York", "").value());
}

const Flag* flag(const StabilizationCheck& result, const std::string& rule) {
    const auto found = std::ranges::find(result.flags, rule, &Flag::rule);
    return found == result.flags.end() ? nullptr : &*found;
}

bool names(const Flag& flag, const std::string& entry) {
    return std::ranges::find(flag.entries, entry) != flag.entries.end();
}

/// The same entries made regular: each matched one at its time and amount, what was missed put in, what was
/// extra left out.
Diary made_regular(const Diary& diary, const StabilizationCheck& result) {
    Diary regular = diary;
    regular.intake.clear();
    const ClockTime begins = diary_day_begins(rules());
    for (const DayRow& row : result.rows)
        for (const DoseTime& dose : row.intended)
            if (row.judged)
                regular.intake.push_back({time_in_diary_day(row.day, dose.at, begins), dose.drug, dose.amount,
                                          TakenWhy::as_planned, ""});
    return regular;
}

constexpr const char* kErratic = "HL-1034";
constexpr const char* kLateInTheInterval = "HL-1029";

TEST(DemoStabilization, TheErraticPersonIsErraticAndTheVeryEntriesAreNamed) {
    const StabilizationInput input = input_of(kErratic);
    const StabilizationCheck result = check(input);
    EXPECT_EQ(result.verdict, Verdict::erratic);
    EXPECT_FALSE(result.ready());
    const Flag* verdict = flag(result, "erratic-limits");
    ASSERT_NE(verdict, nullptr);
    int named = 0;
    for (const DayRow& row : result.rows) {
        if (!row.judged) continue;
        for (const RowEntry& entry : row.entries) {
            const bool unlike = entry.match == EntryMatch::extra || entry.other_amount;
            EXPECT_EQ(unlike, names(*verdict, entry_name(input.diary.intake[entry.intake])));
            named += unlike;
        }
        named += static_cast<int>(row.missed.size());
    }
    EXPECT_EQ(static_cast<int>(verdict->entries.size()), named);
    EXPECT_GT(named, 10);
    for (const std::string& entry : verdict->entries) {
        const bool in_diary = std::ranges::any_of(
            input.diary.intake, [&](const Intake& intake) { return entry_name(intake) == entry; });
        EXPECT_NE(in_diary, entry.ends_with(kNotWrittenDown)) << entry;
    }
}

TEST(DemoStabilization, TheSameEntriesMadeRegularAreSteady) {
    StabilizationInput input = input_of(kErratic);
    input.diary = made_regular(input.diary, check(input));
    const StabilizationCheck result = check(input);
    EXPECT_EQ(result.verdict, Verdict::steady);
    EXPECT_EQ(result.measures.missed + result.measures.extra, 0);
}

TEST(DemoStabilization, SymptomsLateInTheIntervalAreShownAndTheSameRatingsShuffledAreNot) {
    StabilizationInput input = input_of(kLateInTheInterval);
    EXPECT_EQ(check(input).between_dose.answer, BetweenDoseAnswer::shown);
    int shown = 0;
    for (unsigned seed = 1; seed <= 10; ++seed) {
        StabilizationInput shuffled = input;
        std::mt19937 random(seed);
        auto& ratings = shuffled.diary.ratings;
        for (std::size_t left = ratings.size(); left > 1; --left)
            std::swap(ratings[left - 1].severity, ratings[random() % left].severity);
        shown += check(shuffled).between_dose.answer == BetweenDoseAnswer::shown;
    }
    EXPECT_LE(shown, 2);  // one in twenty is expected
}

}  // namespace
}  // namespace evenfall
