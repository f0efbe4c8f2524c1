// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/measures.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "diary/circular.h"
#include "diary/statistics.h"

namespace evenfall::stabilization {

namespace {

void count_entry(Measures& measures, const RowEntry& entry, const Intake& intake) {
    if (!counts(entry)) {
        ++measures.left_out;
        return;
    }
    ++measures.doses;
    measures.extra += entry.match == EntryMatch::extra;
    measures.late += entry.match == EntryMatch::late;
    measures.early += entry.match == EntryMatch::early;
    measures.for_symptoms += intake.why == TakenWhy::symptoms;
    measures.forgot += intake.why == TakenWhy::forgot;
}

void count_days(const Context& context, const Dosing& dosing, Measures& measures) {
    for (const DayRow& row : dosing.rows) {
        const bool before = context.input.judged_from && row.day < *context.input.judged_from;
        measures.unknown_days += row.known == DayKnown::unknown && !before;
        if (!row.judged) continue;
        ++measures.recorded_days;
        measures.days_as_intended += row.as_intended;
        measures.missed += static_cast<int>(row.missed.size());
        if (dosing.source != DoseTimes::none)
            measures.intended_doses += static_cast<int>(row.intended.size());
        for (std::size_t e = 0; e < row.entries.size(); ++e)
            if (!is_later_part(row, e))
                count_entry(measures, row.entries[e], context.intake(row.entries[e].intake));
        const bool taken = !row.entries.empty();
        ++(taken ? measures.days_with : measures.days_without);
    }
}

void measure_totals(const Dosing& dosing, Measures& measures) {
    std::vector<double> days, totals, off;
    const DayRow* before = nullptr;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged || !row.total_known) {
            before = nullptr;
            continue;
        }
        days.push_back(static_cast<double>(row.day.time_since_epoch().count()));
        totals.push_back(row.total);
        if (row.intended_total > 0) off.push_back(std::pow(row.total / row.intended_total - 1, 2));
        if (before != nullptr && std::abs(row.total - before->total) > measures.largest_change) {
            measures.largest_change = std::abs(row.total - before->total);
            measures.largest_change_on = row.day;
        }
        before = &row;
    }
    measures.mean_total = mean(totals);
    measures.total_cv = coefficient_of_variation(totals);
    measures.total_off_intended = std::sqrt(mean(off));
    measures.trend_per_week = 7 * slope(days, totals);
}

void measure_intervals(const std::vector<Interval>& between, const Rules& rules, Measures& measures) {
    std::vector<double> hours;
    for (const Interval& each : between) {
        hours.push_back(each.hours);
        measures.longest_interval_h = std::max(measures.longest_interval_h, each.hours);
        measures.long_gaps += is_long_gap(each, rules);
    }
    measures.interval_mean_h = mean(hours);
    measures.interval_cv = coefficient_of_variation(hours);
}

/// Each intended dose time over all days on which it was in force.
std::vector<DoseTimeKept> dose_times_kept(const Context& context, const Dosing& dosing) {
    std::map<std::tuple<ClockTime, std::string>, std::pair<DoseTimeKept, std::vector<double>>> kept;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        const auto of = [&](std::size_t d) -> auto& {
            return kept[{row.intended[d].at, row.intended[d].drug}];
        };
        for (std::size_t d = 0; d < row.intended.size(); ++d) {
            DoseTimeKept& each = of(d).first;
            each.drug = row.intended[d].drug;
            each.at = row.intended[d].at;
            each.amount = row.intended[d].amount;
            ++each.days;
        }
        for (const auto d : row.missed) ++of(d).first.missed;
        for (std::size_t e = 0; e < row.entries.size(); ++e) {
            const RowEntry& entry = row.entries[e];
            if (!entry.intended || is_later_part(row, e)) continue;
            auto& [each, minutes] = of(*entry.intended);
            ++each.taken;
            each.late += entry.match == EntryMatch::late;
            each.early += entry.match == EntryMatch::early;
            minutes.push_back(clock_of(context.intake(entry.intake).taken_at).minutes);
        }
    }
    std::vector<DoseTimeKept> result;
    for (auto& [key, value] : kept) {
        const ClockSpread spread = clock_spread(value.second);
        if (spread.mean_minutes)
            value.first.usual = ClockTime{static_cast<int>(std::lround(*spread.mean_minutes)) % 1440};
        value.first.sd_minutes = spread.sd_minutes;
        result.push_back(value.first);
    }
    return result;
}

}  // namespace

Measures measure(const Context& context, const Dosing& dosing, const std::vector<Interval>& between) {
    Measures measures;
    count_days(context, dosing, measures);
    measure_totals(dosing, measures);
    measure_intervals(between, context.rules, measures);
    if (dosing.source != DoseTimes::none && context.input.diary.use == Use::scheduled)
        measures.dose_times = dose_times_kept(context, dosing);
    return measures;
}

}  // namespace evenfall::stabilization
