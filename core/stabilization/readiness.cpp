// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/readiness.h"

#include <algorithm>
#include <cmath>

#include "diary/statistics.h"
#include "units/letters.h"

namespace evenfall::stabilization {

namespace {

using std::chrono::days;

Gate scheduled(const Context& context) {
    const Use use = context.input.diary.use;
    return {"gate-scheduled",
            use == Use::scheduled || use == Use::night_only,
            {"gate-scheduled", {{"use", word(use)}}, {}}};
}

/// The day since which the regimen in force has stood: its own, or the diary's first day where that is not
/// known.
Day unchanged_since(const Context& context, const Dosing& dosing) {
    std::vector<DatedRegimen> past;
    for (const DatedRegimen& each : dosing.held_against)
        if (each.from <= day_of(context.input.as_of)) past.push_back(each);
    const Day today = day_of(context.input.as_of);
    const Day since = dosing.rows.empty() ? today : dosing.rows.front().day;
    if (past.empty()) return since;
    std::size_t i = past.size() - 1;
    while (i > 0 && past[i - 1].regimen == past[i].regimen) --i;
    return past[i].from == Day{} ? since : past[i].from;
}

/// The slowest active species of the regimen in force, in hours, and the agent.
std::pair<double, std::string> slowest(const Context& context, const Dosing& dosing) {
    std::pair<double, std::string> result{0, ""};
    const Regimen* regimen = regimen_on(dosing.held_against, day_of(context.input.as_of));
    if (regimen == nullptr) return result;
    for (const std::string& name : agents_of(*regimen)) {
        const Drug* drug = context.formulary.find(name);
        if (drug == nullptr) continue;
        const double hours = slowest_half_life_h(drug->kinetics);
        if (hours > result.first) result = {hours, name};
    }
    return result;
}

Gate unchanged(const Context& context, const Dosing& dosing) {
    const int least = context.rules.whole("gate-unchanged", "days");
    const double half_lives = context.rules.number("gate-unchanged", "half_lives");
    const auto [hours, drug] = slowest(context, dosing);
    const int needed = std::max(least, static_cast<int>(std::ceil(half_lives * hours / 24)));
    const bool known = !dosing.held_against.empty() && hours > 0;
    const auto stood = known ? (day_of(context.input.as_of) - unchanged_since(context, dosing)).count() : 0;
    return {"gate-unchanged",
            known && stood >= needed,
            {"gate-unchanged",
             {{"stood_days", std::to_string(stood)},
              {"needed_days", std::to_string(needed)},
              {"drug", drug},
              {"half_life_h", std::to_string(std::lround(hours))}},
             {}}};
}

/// Mean burden by day over the last days: ratings as deviations from their symptom's mean.
struct Burden {
    std::vector<double> day, value;
};

Burden burden_by_day(const Context& context, const Dosing& dosing, int last_days) {
    const Day from = day_of(context.input.as_of) - days(last_days);
    std::map<std::string, std::vector<double>> by_item;
    const auto& ratings = context.input.diary.ratings;
    const auto each_row = [&](auto&& use) {
        for (const DayRow& row : dosing.rows)
            if (row.day >= from && !row.ratings.empty()) use(row);
    };
    each_row([&](const DayRow& row) {
        for (const auto i : row.ratings) by_item[ratings[i].item].push_back(ratings[i].severity);
    });
    std::map<std::string, double> means;
    for (const auto& [item, values] : by_item) means[item] = mean(values);
    Burden burden;
    each_row([&](const DayRow& row) {
        std::vector<double> values;
        for (const auto i : row.ratings) values.push_back(ratings[i].severity - means[ratings[i].item]);
        burden.day.push_back(static_cast<double>((row.day - from).count()));
        burden.value.push_back(mean(values));
    });
    return burden;
}

/// The standard error of a least-squares slope.
double slope_error(const Burden& burden, double rise) {
    const double day = mean(burden.day), value = mean(burden.value);
    double rest = 0, spread = 0;
    for (std::size_t i = 0; i < burden.day.size(); ++i) {
        rest += std::pow(burden.value[i] - value - rise * (burden.day[i] - day), 2);
        spread += std::pow(burden.day[i] - day, 2);
    }
    return std::sqrt(rest / static_cast<double>(burden.day.size() - 2) / spread);
}

Gate symptoms(const Context& context, const Dosing& dosing) {
    const Rules& rules = context.rules;
    const int last_days = rules.whole("gate-symptoms", "days");
    const Burden burden = burden_by_day(context, dosing, last_days);
    const int least = rules.whole("gate-symptoms", "least_days");
    if (static_cast<int>(burden.day.size()) < least)
        return {"gate-symptoms",
                false,
                {"gate-symptoms-few",
                 {{"rated_days", std::to_string(burden.day.size())}, {"least_days", std::to_string(least)}},
                 {}}};
    const double rise = slope(burden.day, burden.value);
    const double scatter = rules.number("gate-symptoms", "standard_errors") * slope_error(burden, rise);
    const bool rising = 7 * rise >= rules.number("gate-symptoms", "per_week") && rise >= scatter;
    return {"gate-symptoms",
            !rising,
            {"gate-symptoms",
             {{"rise_per_week", print_statistic(7 * rise, 1)},
              {"scatter_per_week", print_statistic(7 * scatter, 1)}},
             {}}};
}

/// Check-ins not older than `last_days` and not after the as-of time.
std::vector<const CheckIn*> recent(const Context& context, int last_days) {
    std::vector<const CheckIn*> result;
    for (const CheckIn& each : context.input.checkins)
        if (each.at <= context.input.as_of && each.at >= context.input.as_of - days(last_days))
            result.push_back(&each);
    return result;
}

/// Whether the rules hold a red flag of this name: "cannot sit still" is `red-flag-cannot-sit-still`.
bool is_red_flag(const Rules& rules, const std::string& question) {
    return rules.find("red-flag-" + with_dashes(question)) != nullptr;
}

Gate red_flags(const Context& context) {
    const int last_days = context.rules.whole("gate-red-flag", "days");
    const auto calls = recent(context, last_days);
    Flag says{"gate-red-flag", {{"calls", std::to_string(calls.size())}}, {}};
    for (const CheckIn* call : calls)
        for (const auto& [question, answer] : call->answers)
            if (answer == "yes" && is_red_flag(context.rules, question))
                says.entries.push_back(print_local_time(call->at) + " " + question);
    says.args["count"] = std::to_string(says.entries.size());
    if (calls.empty()) says.rule = "gate-red-flag-unasked";
    const bool met = !calls.empty() && says.entries.empty();
    return {"gate-red-flag", met, says};
}

Gate screens(const Context& context) {
    const Rule* needed = context.rules.find("screens-needed");
    Flag says{"gate-screens", {}, {}};
    if (needed != nullptr)
        for (const auto& [question, weight] : needed->values) {
            const auto answer = context.input.risks.answers.find(question);
            if (answer != context.input.risks.answers.end() && answer->second != Answer::not_asked) continue;
            says.entries.push_back(question);
        }
    says.args["count"] = std::to_string(says.entries.size());
    return {"gate-screens", needed != nullptr && says.entries.empty(), says};
}

}  // namespace

std::vector<Gate> readiness(const Context& context, const Dosing& dosing) {
    return {scheduled(context), unchanged(context, dosing), symptoms(context, dosing), red_flags(context),
            screens(context)};
}

}  // namespace evenfall::stabilization
