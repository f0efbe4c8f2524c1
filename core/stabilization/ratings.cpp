// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/ratings.h"

#include <algorithm>
#include <map>

#include "diary/statistics.h"

namespace evenfall::stabilization {

namespace {

double hours(std::chrono::seconds span) {
    return static_cast<double>(span.count()) / 3600;
}

std::vector<Instant> dose_instants(const Context& context, const Dosing& dosing) {
    std::vector<Instant> instants;
    for (const DayRow& row : dosing.rows)
        for (const RowEntry& entry : row.entries)
            if (entry.match != EntryMatch::duplicate)
                instants.push_back(context.zone.to_instant(context.intake(entry.intake).taken_at).instant);
    std::sort(instants.begin(), instants.end());
    return instants;
}

std::map<std::string, double> symptom_means(const Context& context, const std::vector<RatingPoint>& points) {
    std::map<std::string, std::pair<double, int>> sums;
    for (const RatingPoint& point : points) {
        const Rating& rating = context.input.diary.ratings[point.rating];
        sums[rating.item].first += rating.severity;
        ++sums[rating.item].second;
    }
    std::map<std::string, double> means;
    for (const auto& [item, sum] : sums) means[item] = sum.first / sum.second;
    return means;
}

const char* rule_of(BetweenDoseAnswer answer) {
    switch (answer) {
        case BetweenDoseAnswer::shown:
            return "between-dose-shown";
        case BetweenDoseAnswer::not_shown:
            return "between-dose-not-shown";
        case BetweenDoseAnswer::cannot_be_separated:
            return "between-dose-clock";
        case BetweenDoseAnswer::too_few:
            break;
    }
    return "between-dose-few";
}

}  // namespace

std::vector<RatingPoint> rating_points(const Context& context, const Dosing& dosing) {
    const std::vector<Instant> doses = dose_instants(context, dosing);
    const double longest = context.rules.number("between-dose-limits", "longest_interval_h");
    std::vector<RatingPoint> points;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        for (const auto i : row.ratings) {
            const Instant rated = context.zone.to_instant(context.input.diary.ratings[i].rated_at).instant;
            const auto next = std::lower_bound(doses.begin(), doses.end(), rated);
            if (next == doses.begin() || next == doses.end()) continue;
            RatingPoint point;
            point.rating = i;
            point.hours_since_dose = hours(rated - *(next - 1));
            point.interval_h = hours(*next - *(next - 1));
            point.late = 2 * point.hours_since_dose > point.interval_h;
            if (point.interval_h <= longest) points.push_back(point);
        }
    }
    return points;
}

BetweenDose between_dose_of(const Context& context, const std::vector<RatingPoint>& points) {
    std::vector<IntervalRating> ratings;
    std::map<std::string, int> items;
    for (const RatingPoint& point : points) {
        const Rating& rating = context.input.diary.ratings[point.rating];
        const auto [item, added] = items.emplace(rating.item, static_cast<int>(items.size()));
        IntervalRating each;
        each.severity = rating.severity;
        each.late = point.late;
        each.clock_h = hours(rating.rated_at - LocalTime(day_of(rating.rated_at)));
        each.day = static_cast<int>(diary_day_of(rating.rated_at, context.begins).time_since_epoch().count());
        each.since_h = point.hours_since_dose;
        each.group = item->second;
        ratings.push_back(each);
    }
    return between_dose(ratings, between_dose_settings(context.rules));
}

Flag between_dose_flag(const Context& context, const BetweenDose& found,
                       const std::vector<RatingPoint>& points) {
    Flag flag{rule_of(found.answer),
              {{"ratings", std::to_string(found.ratings)},
               {"late", std::to_string(found.late)},
               {"late_over_early", print_statistic(found.late_over_early, 2)},
               {"p_value", print_statistic(found.p_value, 4)},
               {"variance_left", print_statistic(found.variance_left, 2)}},
              {}};
    if (found.answer != BetweenDoseAnswer::shown) return flag;
    const auto means = symptom_means(context, points);
    for (const RatingPoint& point : points) {
        const Rating& rating = context.input.diary.ratings[point.rating];
        if (point.late && rating.severity > means.at(rating.item)) flag.entries.push_back(entry_name(rating));
    }
    return flag;
}

}  // namespace evenfall::stabilization
