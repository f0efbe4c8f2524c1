// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/patterns.h"

#include <algorithm>
#include <cmath>

#include "diary/statistics.h"

namespace evenfall::stabilization {

namespace {

using Findings = std::vector<Finding>;

int whole_percent(double share) {
    return static_cast<int>(std::lround(100 * share));
}

bool is_morning(const DoseTime& dose, const Context& context) {
    const int noon = context.rules.whole("mornings-missed", "before_h") * 60;
    return dose.at.minutes < noon && dose.at >= context.begins;
}

/// Missed far more often in the morning than at the other times of day.
void mornings_missed(Findings& findings, const Context& context, const Dosing& dosing) {
    int mornings = 0, others = 0, others_missed = 0;
    Flag flag{"mornings-missed", {}, {}};
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        for (std::size_t d = 0; d < row.intended.size(); ++d) {
            const bool missed = std::find(row.missed.begin(), row.missed.end(), d) != row.missed.end();
            const bool morning = is_morning(row.intended[d], context);
            ++(morning ? mornings : others);
            others_missed += !morning && missed;
            if (morning && missed) flag.entries.push_back(dose_name(context, row.day, row.intended[d]));
        }
    }
    const auto missed = static_cast<double>(flag.entries.size());
    if (mornings == 0 || others == 0 || missed < context.rules.number("mornings-missed", "least_times"))
        return;
    const double share = missed / mornings, other_share = static_cast<double>(others_missed) / others;
    if (100 * share < context.rules.number("mornings-missed", "percent")) return;
    if (share < context.rules.number("mornings-missed", "times_others") * other_share) return;
    flag.args = {{"count", std::to_string(flag.entries.size())}, {"mornings", std::to_string(mornings)}};
    findings.push_back({flag, true});
}

/// What is compared between weekends and working days.
struct Part {
    std::vector<double> totals, minutes_late;
    int days = 0, as_intended = 0;
};

void put(Part& part, const DayRow& row) {
    ++part.days;
    part.as_intended += row.as_intended;
    if (row.total_known && row.intended_total > 0) part.totals.push_back(row.total / row.intended_total);
    for (const RowEntry& entry : row.entries)
        if (entry.intended) part.minutes_late.push_back(entry.minutes_late);
}

/// Apart by at least `least`, and by at least twice the standard error of the difference.
bool apart(const std::vector<double>& a, const std::vector<double>& b, double least) {
    if (a.size() < 2 || b.size() < 2) return false;
    const double difference = std::abs(mean(a) - mean(b));
    const double error = std::hypot(sample_sd(a) / std::sqrt(static_cast<double>(a.size())),
                                    sample_sd(b) / std::sqrt(static_cast<double>(b.size())));
    return difference >= least && difference >= 2 * error;
}

void weekends_different(Findings& findings, const Context& context, const Dosing& dosing) {
    Part weekend, week;
    std::vector<std::size_t> entries;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        const bool free = weekday_from_monday(row.day) >= 5;
        put(free ? weekend : week, row);
        if (!free) continue;
        for (const RowEntry& entry : row.entries)
            if (entry.match != EntryMatch::on_time || entry.other_amount) entries.push_back(entry.intake);
    }
    const Rules& rules = context.rules;
    const int least = rules.whole("weekends-different", "least_days");
    if (weekend.days < least || week.days < least) return;
    const double kept = static_cast<double>(weekend.as_intended) / weekend.days;
    const double kept_in_week = static_cast<double>(week.as_intended) / week.days;
    const bool number = 100 * (kept_in_week - kept) >= rules.number("weekends-different", "days_percent");
    const bool amount =
        apart(weekend.totals, week.totals, rules.number("weekends-different", "total_percent") / 100);
    const bool timing =
        apart(weekend.minutes_late, week.minutes_late, rules.number("weekends-different", "minutes"));
    if (!number && !amount && !timing) return;
    findings.push_back({flag_of(context, "weekends-different",
                                {{"weekend_percent", std::to_string(whole_percent(kept))},
                                 {"week_percent", std::to_string(whole_percent(kept_in_week))},
                                 {"weekend_total", std::to_string(whole_percent(mean(weekend.totals)))},
                                 {"week_total", std::to_string(whole_percent(mean(week.totals)))},
                                 {"shift_minutes", std::to_string(std::lround(mean(weekend.minutes_late) -
                                                                              mean(week.minutes_late)))}},
                                entries),
                        true});
}

bool much_more(Dose taken, Dose intended, double percent) {
    return 100 * taken.mg() >= percent * intended.mg();
}

/// A missed dose followed, for the same agent, by a doubled one or by an extra one beside the next.
void catch_up_doubles(Findings& findings, const Context& context, const Dosing& dosing) {
    const double percent = context.rules.number("catch-up-doubles", "amount_percent");
    std::vector<std::size_t> entries;
    const DayRow* before = nullptr;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) {
            before = nullptr;
            continue;
        }
        for (const RowEntry& entry : row.entries) {
            const Intake& intake = context.intake(entry.intake);
            const int at = minutes_into_day(clock_of(intake.taken_at), context.begins);
            const auto missed_before = [&](const DayRow& day, bool same_day) {
                return std::any_of(day.missed.begin(), day.missed.end(), [&](std::size_t d) {
                    const int missed_at = minutes_into_day(day.intended[d].at, context.begins);
                    const bool last = d + 1 == day.intended.size();
                    return day.intended[d].drug == intake.drug && (same_day ? missed_at < at : last);
                });
            };
            if (!missed_before(row, true) && (before == nullptr || !missed_before(*before, false))) continue;
            const bool doubled =
                entry.intended && much_more(intake.amount, row.intended[*entry.intended].amount, percent);
            if (doubled || entry.match == EntryMatch::extra) entries.push_back(entry.intake);
        }
        before = &row;
    }
    if (static_cast<int>(entries.size()) < context.rules.whole("catch-up-doubles", "least_times")) return;
    findings.push_back(
        {flag_of(context, "catch-up-doubles", {{"count", std::to_string(entries.size())}}, entries), true});
}

/// The daily total moves up against what was intended, beyond its scatter.
void steady_climb(Findings& findings, const Context& context, const Dosing& dosing) {
    std::vector<double> days, ratios;
    std::vector<std::size_t> entries;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged || !row.total_known || row.intended_total <= 0) continue;
        days.push_back(static_cast<double>((row.day - dosing.rows.front().day).count()));
        ratios.push_back(row.total / row.intended_total);
        for (const RowEntry& entry : row.entries)
            if (entry.match == EntryMatch::extra || entry.other_amount) entries.push_back(entry.intake);
    }
    if (days.size() < 7) return;
    const double rise = slope(days, ratios), middle = mean(ratios), first = mean(days);
    double rest = 0, spread = 0;
    for (std::size_t i = 0; i < days.size(); ++i) {
        rest += std::pow(ratios[i] - middle - rise * (days[i] - first), 2);
        spread += std::pow(days[i] - first, 2);
    }
    const double error = std::sqrt(rest / static_cast<double>(days.size() - 2) / spread);
    const double over_all = rise * (days.back() - days.front()) / middle;
    if (100 * over_all < context.rules.number("steady-climb", "percent")) return;
    if (rise < context.rules.number("steady-climb", "standard_errors") * error) return;
    findings.push_back({flag_of(context, "steady-climb",
                                {{"rise_percent", std::to_string(whole_percent(over_all))}}, entries),
                        true});
}

/// One intended interval, over the night, is far longer than the others.
void night_gap(Findings& findings, const Context& context, const Dosing& dosing) {
    const Regimen* regimen = regimen_on(dosing.held_against, day_of(context.input.as_of));
    if (regimen == nullptr) return;
    for (const std::string& drug : agents_of(*regimen)) {
        std::vector<int> minutes;
        for (const DoseTime& dose : regimen->doses)
            if (dose.drug == drug) minutes.push_back(minutes_into_day(dose.at, context.begins));
        std::sort(minutes.begin(), minutes.end());
        if (minutes.size() < 2) continue;
        const double by_day = (minutes.back() - minutes.front()) / 60.0;
        const double night = 24 - by_day;
        const double others = by_day / static_cast<double>(minutes.size() - 1);
        if (night < context.rules.number("night-gap", "least_h")) continue;
        if (night < context.rules.number("night-gap", "times_others") * others) continue;
        std::vector<std::size_t> last_doses;
        for (const DayRow& row : dosing.rows)
            if (row.judged && !row.entries.empty() && context.intake(row.entries.back().intake).drug == drug)
                last_doses.push_back(row.entries.back().intake);
        findings.push_back({flag_of(context, "night-gap",
                                    {{"drug", drug},
                                     {"night_h", std::to_string(std::lround(night))},
                                     {"others_h", std::to_string(std::lround(others))}},
                                    last_doses),
                            false});
    }
}

void planned_steps(Findings& findings, const Dosing& dosing) {
    if (dosing.rows.empty()) return;
    Flag flag{"planned-step", {}, {}};
    for (std::size_t i = 1; i < dosing.held_against.size(); ++i) {
        const DatedRegimen& each = dosing.held_against[i];
        const bool within = each.from > dosing.rows.front().day && each.from <= dosing.rows.back().day;
        if (within && each.regimen != dosing.held_against[i - 1].regimen)
            flag.entries.push_back(print_day(each.from));
    }
    if (flag.entries.empty()) return;
    flag.args = {{"count", std::to_string(flag.entries.size())}};
    findings.push_back({flag, false});
}

void times_irregular(Findings& findings, const Context& context, const Dosing& dosing,
                     const Measures& measures) {
    const double limit = context.rules.number("times-irregular", "sd_minutes");
    for (const DoseTimeKept& each : measures.dose_times) {
        if (each.taken < 2 || each.sd_minutes <= limit) continue;
        std::vector<std::size_t> entries;
        for (const DayRow& row : dosing.rows)
            for (const RowEntry& entry : row.entries)
                if (row.judged && entry.intended && row.intended[*entry.intended].at == each.at &&
                    entry.match != EntryMatch::on_time)
                    entries.push_back(entry.intake);
        const std::string spread =
            std::isfinite(each.sd_minutes) ? std::to_string(std::lround(each.sd_minutes)) : "720";
        findings.push_back(
            {flag_of(context, "times-irregular",
                     {{"drug", each.drug}, {"at", print_clock(each.at)}, {"spread_minutes", spread}},
                     entries),
             true});
    }
}

}  // namespace

std::vector<Finding> patterns(const Context& context, const Dosing& dosing, const Measures& measures) {
    Findings findings;
    mornings_missed(findings, context, dosing);
    weekends_different(findings, context, dosing);
    catch_up_doubles(findings, context, dosing);
    steady_climb(findings, context, dosing);
    times_irregular(findings, context, dosing, measures);
    night_gap(findings, context, dosing);
    planned_steps(findings, dosing);
    return findings;
}

}  // namespace evenfall::stabilization
