// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/burden.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "diary/days.h"
#include "diary/statistics.h"
#include "units/letters.h"

namespace evenfall::response {
namespace {

/// Makes the median absolute deviation of normal values their standard deviation: 1 / Φ⁻¹(3/4).
constexpr double kNormal = 1.4826;
/// Rated days that make up the latest level and each median in the search for the peak.
constexpr std::size_t kRun = 3;

using Levels = std::map<std::string, double>;

Levels item_levels(const ItemDays& days, const Days& window) {
    std::map<std::string, std::vector<double>> by_item;
    for (auto day = days.lower_bound(window.from); day != days.end() && day->first < window.to; ++day)
        for (const auto& [item, severity] : day->second) by_item[item].push_back(severity);
    Levels levels;
    for (const auto& [item, values] : by_item) levels[item] = median(values);
    return levels;
}

/// Each rated day's mean deviation from the items' levels; an item that a day leaves out does not shift it.
std::vector<double> deviations(const ItemDays& days, const Days& window, const Levels& levels) {
    std::vector<double> result;
    for (auto day = days.lower_bound(window.from); day != days.end() && day->first < window.to; ++day) {
        std::vector<double> of_day;
        for (const auto& [item, severity] : day->second)
            if (const auto level = levels.find(item); level != levels.end())
                of_day.push_back(severity - level->second);
        if (!of_day.empty()) result.push_back(mean(of_day));
    }
    return result;
}

double median_of_last(const std::vector<double>& values) {
    const auto count = static_cast<std::ptrdiff_t>(std::min(kRun, values.size()));
    return median({values.end() - count, values.end()});
}

double highest_run(const std::vector<double>& values) {
    double highest = median_of_last(values);
    for (std::size_t i = 0; i + kRun <= values.size(); ++i) {
        const auto first = values.begin() + static_cast<std::ptrdiff_t>(i);
        highest = std::max(highest, median({first, first + static_cast<std::ptrdiff_t>(kRun)}));
    }
    return highest;
}

/// As many of the last days as there are first ones.
Days last_days(const Windows& windows) {
    return {std::max(windows.since.from, windows.since.to - (windows.after.to - windows.after.from)),
            windows.since.to};
}

/// The highest level of an item among those that have it; `otherwise` where none does.
double highest_of(const std::string& item, std::initializer_list<const Levels*> among, double otherwise) {
    std::optional<double> highest;
    for (const Levels* levels : among)
        if (const auto level = levels->find(item); level != levels->end())
            highest = std::max(highest.value_or(level->second), level->second);
    return highest.value_or(otherwise);
}

}  // namespace

bool is_red_flag(const Rules& rules, const std::string& question) {
    return rules.find("red-flag-" + with_dashes(question)) != nullptr;
}

ItemDays item_days(const std::vector<Rating>& ratings, LocalTime as_of, const Rules& rules) {
    const ClockTime begins = diary_day_begins(rules);
    std::map<Day, std::map<std::string, std::pair<double, int>>> sums;
    for (const Rating& rating : ratings) {
        if (rating.rated_at > as_of || is_red_flag(rules, rating.item)) continue;
        auto& [sum, count] = sums[diary_day_of(rating.rated_at, begins)][rating.item];
        sum += rating.severity;
        ++count;
    }
    ItemDays days;
    for (const auto& [day, items] : sums)
        for (const auto& [item, sum] : items) days[day][item] = sum.first / sum.second;
    return days;
}

double median(const std::vector<double>& values) {
    return percentile(values, 0.5);
}

double robust_spread(const std::vector<double>& values) {
    const double middle = median(values);
    std::vector<double> away;
    away.reserve(values.size());
    for (const double value : values) away.push_back(std::abs(value - middle));
    return kNormal * median(away);
}

std::optional<Rise> rise_of(const ItemDays& days, const Windows& windows, const Rules& rules) {
    Levels levels = item_levels(days, windows.before);
    const Levels since_levels = item_levels(days, windows.since);
    const Levels first_levels = item_levels(days, windows.after),
                 last_levels = item_levels(days, last_days(windows));
    std::erase_if(levels, [&](const auto& item) { return !since_levels.contains(item.first); });
    const auto before = deviations(days, windows.before, levels);
    const auto after = deviations(days, windows.after, levels);
    const auto since = deviations(days, windows.since, levels);
    const auto least = static_cast<std::size_t>(rules.whole("response-window", "least_days"));
    if (before.size() < least || after.size() < least) return std::nullopt;
    Rise result;
    const double zero = median(before);
    std::vector<double> item_values;
    for (const auto& [item, level] : levels) {
        item_values.push_back(level);
        result.items[item] = highest_of(item, {&first_levels, &last_levels}, since_levels.at(item)) - level;
    }
    result.before = mean(item_values) + zero;
    result.spread = std::max(robust_spread(before), rules.number("response-rise", "least_spread"));
    result.rise = median(after) - zero;
    result.latest = median_of_last(since) - zero;
    result.peak = highest_run(since) - zero;
    result.days_before = static_cast<int>(before.size());
    result.days_after = static_cast<int>(after.size());
    result.days_since = static_cast<int>(since.size());
    return result;
}

double clear_limit(const Rise& rise, const Rules& rules) {
    return std::max(rules.number("response-rise", "least_points"),
                    rules.number("response-rise", "spreads") * rise.spread);
}

}  // namespace evenfall::response
