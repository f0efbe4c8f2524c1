// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>
#include <set>

#include "kinetics/doses.h"
#include "stabilization/measures.h"

namespace evenfall::stabilization {

namespace {

/// Civil hours from one intended dose of an agent to its next, round the day; the longest one for an extra
/// dose.
double intended_hours(const DayRow& row, const RowEntry& entry, const std::string& drug, ClockTime begins) {
    std::vector<int> minutes;
    for (const DoseTime& dose : row.intended)
        if (dose.drug == drug) minutes.push_back(minutes_into_day(dose.at, begins));
    if (minutes.empty()) return 0;
    double longest = 0;
    for (std::size_t i = 0; i < minutes.size(); ++i) {
        const int next = i + 1 < minutes.size() ? minutes[i + 1] : minutes.front() + 1440;
        const double hours = (next - minutes[i]) / 60.0;
        const bool this_one =
            entry.intended && minutes_into_day(row.intended[*entry.intended].at, begins) == minutes[i];
        if (this_one) return hours;
        longest = std::max(longest, hours);
    }
    return longest;
}

}  // namespace

std::vector<Interval> intervals(const Context& context, const Dosing& dosing) {
    std::vector<Interval> result;
    if (context.input.diary.use != Use::scheduled) return result;
    struct Last {
        std::size_t intake;
        double intended_h;
    };
    std::map<std::string, Last> last;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) {
            last.clear();
            continue;
        }
        std::set<std::string> agents;
        for (const DoseTime& dose : row.intended) agents.insert(dose.drug);
        std::erase_if(last, [&](const auto& each) { return !agents.contains(each.first); });
        for (std::size_t e = 0; e < row.entries.size(); ++e) {
            const RowEntry& entry = row.entries[e];
            if (entry.match == EntryMatch::duplicate || is_later_part(row, e)) continue;
            const Intake& intake = context.intake(entry.intake);
            if (const auto before = last.find(intake.drug); before != last.end()) {
                const LocalTime start = context.intake(before->second.intake).taken_at;
                result.push_back({before->second.intake, entry.intake,
                                  kinetics::hours_between(start, intake.taken_at, context.zone),
                                  before->second.intended_h});
            }
            last[intake.drug] = {entry.intake, intended_hours(row, entry, intake.drug, context.begins)};
        }
    }
    return result;
}

bool is_long_gap(const Interval& interval, const Rules& rules) {
    return interval.intended_h > 0 &&
           interval.hours > rules.number("long-gap", "times") * interval.intended_h;
}

}  // namespace evenfall::stabilization
