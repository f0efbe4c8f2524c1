// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/taper_flags.h"

#include <algorithm>

#include "planning/percent_text.h"
#include "planning/taper_check.h"
#include "units/dose_text.h"

namespace evenfall::planning {

namespace {

std::vector<ClockTime> times_of(const Step& step, const std::string& drug) {
    std::vector<ClockTime> times;
    for (const PlannedDose& dose : step.doses)
        if (dose.drug == drug) times.push_back(dose.at);
    return times;
}

std::vector<ClockTime> times_before(const Plan& plan, std::size_t i) {
    if (i > 0) return times_of(plan.steps[i - 1], plan.request.drug);
    std::vector<ClockTime> times;
    for (const DoseTime& dose : dose_times_of(plan.start, plan.request.drug)) times.push_back(dose.at);
    return times;
}

void flag_dropped(const Plan& plan, std::size_t i, Step& step) {
    const std::vector<ClockTime> now = times_of(step, plan.request.drug);
    for (const ClockTime at : times_before(plan, i))
        if (!now.empty() && std::find(now.begin(), now.end(), at) == now.end())
            step.flags.push_back({"dose-time-dropped",
                                  {{"at", print_clock(at)}, {"gap_h", in_hours(longest_gap_minutes(now))}},
                                  {}});
}

void flag_cut(const Plan& plan, const StepNote& note, Dose before, bool first_over, Step& step) {
    const auto [percent, cap] = percents_apart(step.percent_of_last, plan.request.cap);
    if (note.over_cap) step.flags.push_back({"cut-over-cap", {{"percent", percent}, {"cap", cap}}, {}});
    if (note.over_cap && first_over)
        step.flags.push_back(
            {"cap-cannot-be-kept", {{"cap", cap}, {"dose", print_dose(before)}, {"percent", percent}}, {}});
    if (note.over_cap || !note.smallest || step.percent_of_last <= plan.request.target) return;
    const auto [cut, target] = percents_apart(step.percent_of_last, plan.request.target);
    step.flags.push_back({"over-target", {{"percent", cut}, {"target", target}}, {}});
}

// The same amount at the same hour, made of other pieces than in the step before: nothing is reduced there,
// though the tablets look different.
void flag_pieces(const Plan& plan, std::size_t i, Step& step) {
    if (i == 0) return;
    std::string at;
    for (const PlannedDose& dose : step.doses)
        for (const PlannedDose& before : plan.steps[i - 1].doses) {
            const bool same =
                before.at == dose.at && before.drug == dose.drug && before.amount == dose.amount;
            if (same && before.pieces != dose.pieces) at += (at.empty() ? "" : ", ") + print_clock(dose.at);
        }
    if (!at.empty()) step.flags.push_back({"pieces-changed", {{"at", at}}, {}});
}

void flag_falls(Plan& plan, std::size_t from, const Rules& rules) {
    const int days = rules.whole("fall-over-two-weeks", "days");
    std::vector<Day> starts;
    std::vector<Dose> daily{daily_amount(plan.start, plan.request.drug)};
    for (const Step& step : plan.steps) {
        starts.push_back(step.starts);
        daily.push_back(step.daily);
    }
    const std::vector<Share> falls = window_falls(starts, daily, days);
    for (std::size_t i = from; i < falls.size(); ++i)
        if (const Share limit = rules.percent("fall-over-two-weeks", "percent"); falls[i] > limit)
            plan.steps[i].flags.push_back(
                {"fall-over-two-weeks",
                 {{"percent", percents_apart(falls[i], limit).first}, {"days", std::to_string(days)}},
                 {}});
}

void flag_quarters(Plan& plan) {
    std::vector<std::string> named;
    for (const Step& step : plan.steps)
        for (const PlannedDose& dose : step.doses)
            for (const Piece& piece : dose.pieces)
                if (piece.cut == Cut::quarter) named.push_back(product_name(piece.product));
    std::sort(named.begin(), named.end());
    named.erase(std::unique(named.begin(), named.end()), named.end());
    for (const std::string& product : named)
        plan.flags.push_back({"quarter-unscored", {{"product", product}}, {}});
}

}  // namespace

std::string in_hours(int minutes) {
    return print_percent(Share::of(minutes, 6000));  // print_percent multiplies by 100
}

int longest_gap_minutes(const std::vector<ClockTime>& times) {
    constexpr int kDay = 24 * 60;
    int longest = 0;
    for (std::size_t i = 0; i < times.size(); ++i) {
        const bool last = i + 1 == times.size();
        const int next = last ? times.front().minutes + kDay : times[i + 1].minutes;
        longest = std::max(longest, next - times[i].minutes);
    }
    return longest;
}

std::vector<Share> window_falls(const std::vector<Day>& starts, const std::vector<Dose>& daily, int days) {
    std::vector<Share> falls(starts.size());
    for (std::size_t i = 0; i < starts.size(); ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            const bool within = starts[i] - starts[j] < std::chrono::days(days);
            if (within && daily[j] > Dose() && daily[i + 1] < daily[j])
                falls[i] = std::max(falls[i], Share::cut(daily[j], daily[i + 1]));
        }
    return falls;
}

void flag_steps(Plan& plan, const std::vector<StepNote>& notes, std::size_t from, const Rules& rules) {
    bool first_over = true;
    for (std::size_t i = from; i < plan.steps.size(); ++i) {
        Step& step = plan.steps[i];
        const Dose before = i > 0 ? plan.steps[i - 1].daily : daily_amount(plan.start, plan.request.drug);
        if (step.daily.is_zero()) {
            step.flags.push_back({"to-off", {{"dose", print_dose(before)}}, {}});
            continue;
        }
        flag_cut(plan, notes[i - from], before, first_over, step);
        first_over = first_over && !notes[i - from].over_cap;
        flag_dropped(plan, i, step);
        flag_pieces(plan, i, step);
    }
    flag_falls(plan, from, rules);
}

void flag_plan(Plan& plan, std::size_t from, const std::optional<Day>& today, const Rules& rules) {
    if (today && from < plan.steps.size() && plan.steps[from].starts < *today)
        plan.flags.push_back({"start-in-past",
                              {{"day", print_day(plan.steps[from].starts)}, {"today", print_day(*today)}},
                              {}});
    flag_quarters(plan);
    const int days = plan.request.days_per_step;
    if (days < rules.whole("step-interval", "least_days") || days > rules.whole("step-interval", "most_days"))
        plan.flags.push_back({"step-interval", {{"step_days", std::to_string(days)}}, {}});
    if (plan.request.commit_steps > rules.whole("committed-steps", "steps"))
        plan.flags.push_back({"committed-steps", {}, {}});
    if (static_cast<int>(plan.steps.size()) > rules.whole("many-steps", "steps"))
        plan.flags.push_back({"many-steps", {{"steps", std::to_string(plan.steps.size())}}, {}});
}

}  // namespace evenfall::planning
