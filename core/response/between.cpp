// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "diary/days.h"
#include "response/assess.h"

namespace evenfall::response {
namespace {

using std::chrono::days;

double hours(std::chrono::seconds span) {
    return static_cast<double>(span.count()) / 3600;
}

/// When doses were taken: as written down, and on days without any entry as the regimen says.
std::vector<LocalTime> dose_times(const Context& context) {
    std::vector<LocalTime> times;
    std::set<Day> written;
    for (const Intake& intake : context.input.diary.intake) {
        times.push_back(intake.taken_at);
        written.insert(day_of(intake.taken_at));
    }
    const auto& ratings = context.input.diary.ratings;
    if (ratings.empty()) return times;
    const auto [first, last] = std::ranges::minmax(ratings, {}, &Rating::rated_at);
    for (Day day = day_of(first.rated_at) - days(2); day <= day_of(last.rated_at) + days(2); day += days(1))
        if (!written.contains(day))
            for (const DoseTime& dose : regimen_on(context.input, day).doses)
                times.push_back(at_clock(day, dose.at));
    std::ranges::sort(times);
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

struct Placed {
    const Rating* rating = nullptr;
    double since_h = 0;
    bool late = false;
};

/// The ratings up to now that lie between two doses; one at the minute of a dose is before it.
std::vector<Placed> placed(const Context& context) {
    const auto times = dose_times(context);
    const double longest = context.rules.number("between-dose-limits", "longest_interval_h");
    std::vector<Placed> result;
    for (const Rating& rating : context.input.diary.ratings) {
        if (rating.rated_at > context.input.as_of || is_red_flag(context.rules, rating.item)) continue;
        const auto next = std::ranges::lower_bound(times, rating.rated_at);
        if (next == times.begin() || next == times.end()) continue;
        const double since = hours(rating.rated_at - *(next - 1));
        const double interval = hours(*next - *(next - 1));
        if (interval <= longest) result.push_back({&rating, since, 2 * since > interval});
    }
    return result;
}

}  // namespace

std::vector<Rating> early_ratings(const Context& context) {
    std::vector<Rating> early;
    for (const Placed& each : placed(context))
        if (!each.late) early.push_back(*each.rating);
    return early;
}

BetweenDose between_doses_in(const Context& context, const Days& window) {
    const ClockTime begins = diary_day_begins(context.rules);
    std::map<std::string, int> items;
    std::vector<IntervalRating> ratings;
    for (const Placed& each : placed(context)) {
        const Day day = diary_day_of(each.rating->rated_at, begins);
        if (day < window.from || day >= window.to) continue;
        IntervalRating rating;
        rating.severity = each.rating->severity;
        rating.late = each.late;
        rating.clock_h = clock_of(each.rating->rated_at).minutes / 60.0;
        rating.day = static_cast<int>(day.time_since_epoch().count());
        rating.since_h = each.since_h;
        rating.group = items.emplace(each.rating->item, static_cast<int>(items.size())).first->second;
        ratings.push_back(rating);
    }
    return between_dose(ratings, between_dose_settings(context.rules));
}

}  // namespace evenfall::response
