// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/diary.h"
#include "rules/rules.h"

// Symptom burden by day, and how far it rose after a step against the days before it. Robust: medians, and
// the median absolute deviation for the spread.

namespace evenfall::response {

/// Severity by item and diary day, each the mean of that day's ratings of the item, 0 to 10.
using ItemDays = std::map<Day, std::map<std::string, double>>;

/// Days from `from` to the day before `to`.
struct Days {
    Day from{};
    Day to{};
};

/// Whether the rules hold a red flag of this name: such an item is answered by acting, and is never averaged.
bool is_red_flag(const Rules& rules, const std::string& question);

/// Ratings up to `as_of` by diary day, red-flag items left out.
ItemDays item_days(const std::vector<Rating>& ratings, LocalTime as_of, const Rules& rules);

double median(const std::vector<double>& values);
/// 1.4826 times the median absolute deviation from the median, which estimates the standard deviation of
/// normal values.
double robust_spread(const std::vector<double>& values);

/// How burden rose. Points of the 0 to 10 scale.
struct Rise {
    double before = 0;  ///< burden before: mean over the items of their levels, shifted to the days' median
    double spread = 0;  ///< of the days before, never under the rule's least spread
    double rise = 0;    ///< median of the first days after the lag, above `before`
    double latest = 0;  ///< median of the last rated days, above `before`
    double peak = 0;    ///< highest median of three rated days in a row, above `before`
    int days_before = 0, days_after = 0, days_since = 0;  ///< rated days in each window
    std::map<std::string, double> items;  ///< rise of each item: in the first days or the last, the higher
};

/// Where burden is looked at: before the step, in the first days after its lag, and in all days after its
/// lag.
struct Windows {
    Days before, after, since;
};

/// The rise over the items rated both before and since, so that adding an item does not raise it. Empty with
/// fewer rated days than rule `response-window` asks for in a window.
std::optional<Rise> rise_of(const ItemDays& days, const Windows& windows, const Rules& rules);

/// What counts as a clear rise: over the rule's least points and its number of spreads.
double clear_limit(const Rise& rise, const Rules& rules);

}  // namespace evenfall::response
