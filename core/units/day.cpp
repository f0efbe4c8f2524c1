// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/day.h"

#include <cstdio>

namespace evenfall {
namespace {

using namespace std::chrono;

constexpr int kFirstYear = 1900;
constexpr int kLastYear = 2199;

Fault fault(std::string id, std::string_view place, std::string_view text) {
    return {std::move(id), std::string(place), {{"text", std::string(text.substr(0, 40))}}};
}

/// The number that `count` digits at `at` form, or -1.
int digits(std::string_view text, std::size_t at, std::size_t count) {
    if (at + count > text.size()) return -1;
    int value = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9') return -1;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

}  // namespace

int weekday_from_monday(Day day) {
    return static_cast<int>(weekday(day).iso_encoding()) - 1;
}

Result<Day> parse_day(std::string_view text, std::string_view place) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return fault("day-not-a-date", place, text);
    const int y = digits(text, 0, 4);
    const int m = digits(text, 5, 2);
    const int d = digits(text, 8, 2);
    if (y < 0 || m < 0 || d < 0) return fault("day-not-a-date", place, text);
    if (y < kFirstYear || y > kLastYear) return fault("day-out-of-range", place, text);
    const year_month_day date{year(y), month(static_cast<unsigned>(m)),
                              std::chrono::day(static_cast<unsigned>(d))};
    if (!date.ok()) return fault("day-not-in-calendar", place, text);
    return Day(date);
}

Result<ClockTime> parse_clock(std::string_view text, std::string_view place) {
    if (text.size() != 5 || text[2] != ':') return fault("clock-not-a-time", place, text);
    const int h = digits(text, 0, 2);
    const int m = digits(text, 3, 2);
    if (h < 0 || h > 23 || m < 0 || m > 59) return fault("clock-not-a-time", place, text);
    return ClockTime{h * 60 + m};
}

Result<LocalTime> parse_local_time(std::string_view text, std::string_view place) {
    if (text.size() < 16 || (text[10] != 'T' && text[10] != ' '))
        return fault("time-not-a-time", place, text);
    auto day = parse_day(text.substr(0, 10), place);
    if (!day) return day.faults();
    auto at = parse_clock(text.substr(11, 5), place);
    if (!at) return at.faults();
    int second = 0;
    if (text.size() > 16) {
        second = text.size() == 19 && text[16] == ':' ? digits(text, 17, 2) : -1;
        if (second < 0 || second > 59) return fault("time-not-a-time", place, text);
    }
    return at_clock(*day, *at) + seconds(second);
}

std::string print_day(Day day) {
    const auto date = calendar(day);
    char text[32];
    std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
    return text;
}

std::string print_clock(ClockTime at) {
    char text[16];
    std::snprintf(text, sizeof text, "%02d:%02d", at.minutes / 60, at.minutes % 60);
    return text;
}

std::string print_local_time(LocalTime time) {
    std::string text = print_day(day_of(time)) + "T" + print_clock(clock_of(time));
    const auto second = (time.time_since_epoch() % minutes(1) + minutes(1)) % minutes(1);
    if (second != seconds(0)) {
        char tail[8];
        std::snprintf(tail, sizeof tail, ":%02d", static_cast<int>(seconds(second).count()));
        text += tail;
    }
    return text;
}

std::string print_instant(Instant instant) {
    const LocalTime as_written(instant.time_since_epoch());
    std::string text = print_local_time(as_written);
    if (text.size() == 16) text += ":00";
    return text + "Z";
}

Result<Instant> parse_instant(std::string_view text, std::string_view place) {
    if (text.empty() || text.back() != 'Z') return fault("time-not-a-time", place, text);
    auto written = parse_local_time(text.substr(0, text.size() - 1), place);
    if (!written) return written.faults();
    return Instant(written->time_since_epoch());
}

int age_on(Day born, Day on) {
    const auto b = calendar(born);
    const auto o = calendar(on);
    int years = static_cast<int>(o.year()) - static_cast<int>(b.year());
    if (o.month() < b.month() || (o.month() == b.month() && o.day() < b.day())) --years;
    return years;
}

}  // namespace evenfall
