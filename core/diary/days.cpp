// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/days.h"

#include <algorithm>

#include "units/dose_text.h"

namespace evenfall {

namespace {

using std::chrono::days;

std::chrono::minutes offset(ClockTime begins) {
    return std::chrono::minutes(begins.minutes);
}

/// The entries up to `as_of`, as indices in order of time.
template <class Entry, class TimeOf>
std::vector<std::size_t> in_order(const std::vector<Entry>& entries, LocalTime as_of, TimeOf time_of) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < entries.size(); ++i)
        if (time_of(entries[i]) <= as_of) order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return time_of(entries[a]) < time_of(entries[b]); });
    return order;
}

std::vector<DiaryDay> empty_days(const std::vector<Day>& touched, Day running) {
    std::vector<DiaryDay> result;
    if (touched.empty()) return result;
    const auto [first, last] = std::minmax_element(touched.begin(), touched.end());
    for (Day day = *first; day <= *last; day += days(1)) {
        result.push_back({day, day == running ? DayKnown::running : DayKnown::unknown, {}, {}});
    }
    return result;
}

DiaryDay& row_of(std::vector<DiaryDay>& all, Day day) {
    return all[static_cast<std::size_t>((day - all.front().day).count())];
}

void mark_recorded(DiaryDay& day) {
    if (day.known == DayKnown::unknown) day.known = DayKnown::recorded;
}

}  // namespace

ClockTime diary_day_begins(const Rules& rules) {
    return {rules.whole("diary-day", "begins_h") * 60};
}

Day diary_day_of(LocalTime time, ClockTime begins) {
    return day_of(time - offset(begins));
}

int minutes_into_day(ClockTime at, ClockTime begins) {
    return (at.minutes - begins.minutes + 1440) % 1440;
}

LocalTime time_in_diary_day(Day day, ClockTime at, ClockTime begins) {
    return at_clock(day, begins) + std::chrono::minutes(minutes_into_day(at, begins));
}

std::vector<DiaryDay> diary_days(const Diary& diary, LocalTime as_of, ClockTime begins) {
    const auto intake = in_order(diary.intake, as_of, [](const Intake& each) { return each.taken_at; });
    const auto ratings = in_order(diary.ratings, as_of, [](const Rating& each) { return each.rated_at; });
    const Day running = diary_day_of(as_of, begins);
    std::vector<Day> touched;
    touched.reserve(intake.size() + ratings.size() + diary.kept_empty.size());
    for (const auto i : intake) touched.push_back(diary_day_of(diary.intake[i].taken_at, begins));
    for (const auto i : ratings) touched.push_back(diary_day_of(diary.ratings[i].rated_at, begins));
    for (const Day kept : diary.kept_empty)
        if (kept <= running) touched.push_back(kept);

    std::vector<DiaryDay> result = empty_days(touched, running);
    for (const Day day : touched) mark_recorded(row_of(result, day));
    for (const auto i : intake)
        row_of(result, diary_day_of(diary.intake[i].taken_at, begins)).intake.push_back(i);
    for (const auto i : ratings)
        row_of(result, diary_day_of(diary.ratings[i].rated_at, begins)).ratings.push_back(i);
    return result;
}

std::string entry_name(const Intake& intake) {
    return print_local_time(intake.taken_at) + " " + intake.drug + " " + print_dose(intake.amount);
}

std::string entry_name(const Rating& rating) {
    return print_local_time(rating.rated_at) + " " + rating.item + " " + std::to_string(rating.severity);
}

}  // namespace evenfall
