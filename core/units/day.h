// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "units/result.h"

// Schedules are lived in civil days and clock times, as the patient has them on the wall; the levels that a
// model computes run in hours. Instants (UTC) serve the audit trail alone. Nothing in core asks what time it
// is now.

namespace evenfall {

/// A civil day, with no zone. Days are counted, so subtraction gives days and never meets a clock change.
using Day = std::chrono::local_days;

/// A civil day and clock time as the patient lives it, to the second, with no zone.
using LocalTime = std::chrono::local_seconds;

/// An instant, for the audit trail.
using Instant = std::chrono::sys_seconds;

/// A time on the clock, in whole minutes after midnight, 0 to 1439.
struct ClockTime {
    int minutes = 0;
    friend constexpr auto operator<=>(ClockTime, ClockTime) = default;
};

/// The local time at `at` on `day`.
inline LocalTime at_clock(Day day, ClockTime at) {
    return LocalTime(day) + std::chrono::minutes(at.minutes);
}

inline Day day_of(LocalTime time) {
    return std::chrono::floor<std::chrono::days>(time);
}

/// The clock time of `time`, seconds dropped.
inline ClockTime clock_of(LocalTime time) {
    return {
        static_cast<int>(std::chrono::floor<std::chrono::minutes>(time - LocalTime(day_of(time))).count())};
}

/// Monday first: 0 to 6.
int weekday_from_monday(Day day);

/// "YYYY-MM-DD", years 1900 to 2199. Faults: `day-not-a-date` (wrong shape), `day-not-in-calendar` (30
/// February).
Result<Day> parse_day(std::string_view text, std::string_view place);
/// "HH:MM", 00:00 to 23:59. Fault: `clock-not-a-time`.
Result<ClockTime> parse_clock(std::string_view text, std::string_view place);
/// "YYYY-MM-DDTHH:MM[:SS]", or a space for the T. Faults as above.
Result<LocalTime> parse_local_time(std::string_view text, std::string_view place);

std::string print_day(Day day);           ///< "2026-12-01"
std::string print_clock(ClockTime at);    ///< "08:00"
std::string print_local_time(LocalTime);  ///< "2026-12-01T08:05", with seconds only where they are not zero
std::string print_instant(Instant);       ///< "2026-12-01T08:05:09Z"
Result<Instant> parse_instant(std::string_view text, std::string_view place);

/// The calendar fields of a day, for rendering in a language.
inline std::chrono::year_month_day calendar(Day day) {
    return std::chrono::year_month_day(day);
}

/// A day from its calendar fields. REQUIRES a real date.
inline Day day_at(int year, unsigned month, unsigned day) {
    return Day(std::chrono::year_month_day(std::chrono::year(year), std::chrono::month(month),
                                           std::chrono::day(day)));
}

/// Whole years from `born` to `on`, as age is counted (a 29 February birthday falls on 1 March).
int age_on(Day born, Day on);

}  // namespace evenfall
