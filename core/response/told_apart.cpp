// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cstdio>

#include "response/assess.h"

namespace evenfall::response {
namespace {

using std::chrono::days;

std::string decimals(double value, const char* format) {
    char text[32];
    std::snprintf(text, sizeof text, format, value);
    return text;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& each : words) text += (text.empty() ? "" : ", ") + each;
    return text;
}

/// The items that rose, split by what they were before the taper.
struct Risen {
    std::vector<std::string> fresh;  ///< hardly there before the taper
    std::vector<std::string> known;  ///< there before the taper
    std::size_t all = 0;
};

Risen risen_of(const Rise& rise, const std::map<std::string, double>& baseline, const Rules& rules) {
    Risen risen;
    for (const auto& [item, by] : rise.items) {
        if (by < rules.number("told-apart", "item_rise")) continue;
        ++risen.all;
        const auto was = baseline.find(item);
        if (was == baseline.end()) continue;
        if (was->second <= rules.number("told-apart", "fresh_at_most")) risen.fresh.push_back(item);
        if (was->second >= rules.number("told-apart", "known_at_least")) risen.known.push_back(item);
    }
    return risen;
}

Flag between_flag(const BetweenDose& found) {
    return {"between-dose-shown",
            {{"ratings", std::to_string(found.ratings)},
             {"late_over_early", decimals(found.late_over_early, "%.2f")},
             {"p_value", decimals(found.p_value, "%.4f")}},
            {}};
}

/// Whether burden rose clearly when only ratings of the first half of each interval are looked at.
bool clear_when_early(const ItemDays& early, const Windows& windows, const Rules& rules) {
    const auto rise = rise_of(early, windows, rules);
    return rise && std::max(rise->rise, rise->latest) >= clear_limit(*rise, rules);
}

void tell_clear_rise(const Context& context, const StepTaken& step, const Risen& risen,
                     StepResponse& response) {
    const int late_days = context.rules.whole("told-apart", "late_days");
    const Args days_arg{{"days", std::to_string(response.days)}, {"items", joined(risen.known)}};
    const bool late = response.days >= late_days && !response.settled;
    const bool in_time = response.rise->rise >= clear_limit(*response.rise, context.rules);
    if (!risen.fresh.empty()) {
        response.told_apart = ToldApart::withdrawal;
        response.says.push_back({"withdrawal-fresh", {{"items", joined(risen.fresh)}}, {}});
    } else if (late && risen.known.size() == risen.all && risen.all > 0) {
        response.told_apart = ToldApart::recurrence;
        response.says.push_back({in_time ? "recurrence-persists" : "recurrence-late", days_arg, {}});
    } else {
        response.told_apart = ToldApart::withdrawal;
        response.says.push_back(
            {"withdrawal-timing",
             {{"number", std::to_string(step.number)}, {"lag", std::to_string(response.lag_days)}},
             {}});
        if (!risen.known.empty())
            response.says.push_back({"told-apart-unsure", {{"items", joined(risen.known)}}, {}});
    }
}

}  // namespace

std::map<std::string, double> baseline_of(const Context& context, const ItemDays& item_days,
                                          const std::vector<StepTaken>& steps, bool& found) {
    std::map<std::string, double> baseline;
    found = !context.input.baseline;
    if (!found) {
        for (const auto& [item, severity] : context.input.baseline->severity) baseline[item] = severity;
        return baseline;
    }
    if (steps.empty()) return baseline;
    const Day starts = steps.front().after.from;
    const Day from = starts - days(context.rules.whole("told-apart", "baseline_days"));
    std::map<std::string, std::vector<double>> values;
    for (auto day = item_days.lower_bound(from); day != item_days.end() && day->first < starts; ++day)
        for (const auto& [item, severity] : day->second) values[item].push_back(severity);
    for (const auto& [item, each] : values) baseline[item] = median(each);
    return baseline;
}

void tell_apart(const Context& context, const StepTaken& step, const Windows& windows,
                const std::map<std::string, double>& baseline, const ItemDays& early,
                StepResponse& response) {
    const BetweenDose between = between_doses_in(context, windows.since);
    const bool shown = between.answer == BetweenDoseAnswer::shown;
    if (shown) response.says.push_back(between_flag(between));
    if (!response.rise) return;
    if (shown && !clear_when_early(early, windows, context.rules))
        response.told_apart = ToldApart::between_doses;
    else if (response.clear)
        tell_clear_rise(context, step, risen_of(*response.rise, baseline, context.rules), response);
}

}  // namespace evenfall::response
