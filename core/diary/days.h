// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/diary.h"
#include "model/regimen.h"
#include "model/words.h"
#include "rules/rules.h"
#include "units/day.h"

// A diary day runs from 04:00 to 04:00 (rule `diary-day`) and is named by the civil day on which it begins,
// so that a dose at half past midnight belongs to the evening before.

namespace evenfall {

/// What is known of a diary day. Unknown is not missed.
enum class DayKnown {
    recorded,  ///< a dose was written down, or a symptom was, or the day was kept with nothing taken
    unknown,   ///< nothing was written down
    running    ///< not over yet at the as-of time: shown, not judged
};
template <>
struct Words<DayKnown> {
    static constexpr std::array<WordPair<DayKnown>, 3> table{
        {{DayKnown::recorded, "recorded"}, {DayKnown::unknown, "unknown"}, {DayKnown::running, "running"}}};
};

/// One diary day with its entries, as indices into the diary's lists, each in order of time.
struct DiaryDay {
    Day day{};
    DayKnown known = DayKnown::unknown;
    std::vector<std::size_t> intake;
    std::vector<std::size_t> ratings;
};

/// When a diary day begins (rule `diary-day`, `begins_h`).
ClockTime diary_day_begins(const Rules& rules);
/// The diary day to which `time` belongs.
Day diary_day_of(LocalTime time, ClockTime begins);
/// Minutes from the beginning of the diary day to a clock time: 0 to 1439.
int minutes_into_day(ClockTime at, ClockTime begins);
/// The local time of a clock time within a diary day (after midnight it falls on the next civil day).
LocalTime time_in_diary_day(Day day, ClockTime at, ClockTime begins);

/// Every diary day from the first to the last entry (or kept day), none left out. Entries after `as_of` are
/// not included; the day that holds `as_of` is `running`.
std::vector<DiaryDay> diary_days(const Diary& diary, LocalTime as_of, ClockTime begins);

/// How an entry is named where a finding lists what raised it: "2026-12-01T08:05 lorazepam 1 mg".
std::string entry_name(const Intake& intake);
/// "2026-12-01T13:00 anxiety 4".
std::string entry_name(const Rating& rating);

}  // namespace evenfall
