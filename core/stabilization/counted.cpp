// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <functional>

#include "stabilization/patterns.h"

namespace evenfall::stabilization {

namespace {

using Findings = std::vector<Finding>;

/// The entries of the rows that fit.
std::vector<std::size_t> entries_where(const Dosing& dosing,
                                       const std::function<bool(const DayRow&, const RowEntry&)>& fits) {
    std::vector<std::size_t> found;
    for (const DayRow& row : dosing.rows)
        for (const RowEntry& entry : row.entries)
            if (fits(row, entry)) found.push_back(entry.intake);
    return found;
}

std::string number(std::size_t count) {
    return std::to_string(count);
}

void add(Findings& findings, const Context& context, const char* rule,
         const std::vector<std::size_t>& entries, Args args = {}) {
    if (entries.empty()) return;
    args["count"] = number(entries.size());
    findings.push_back({flag_of(context, rule, std::move(args), entries), false});
}

void add_missed(Findings& findings, const Context& context, const Dosing& dosing) {
    Flag flag{"doses-missed", {}, {}};
    Flag empty{"day-without-doses", {}, {}};
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        for (const auto d : row.missed) flag.entries.push_back(dose_name(context, row.day, row.intended[d]));
        if (row.entries.empty() && !row.intended.empty()) empty.entries.push_back(print_day(row.day));
    }
    for (Flag* each : {&flag, &empty}) {
        each->args["count"] = number(each->entries.size());
        if (!each->entries.empty()) findings.push_back({*each, false});
    }
}

void add_gaps(Findings& findings, const Context& context, const std::vector<Interval>& between) {
    Flag flag{"long-gap", {}, {}};
    for (const Interval& each : between) {
        if (!is_long_gap(each, context.rules)) continue;
        flag.entries.push_back(entry_name(context.intake(each.from)));
        flag.entries.push_back(entry_name(context.intake(each.to)));
    }
    if (flag.entries.empty()) return;
    flag.args["count"] = number(flag.entries.size() / 2);
    flag.entries.erase(std::unique(flag.entries.begin(), flag.entries.end()), flag.entries.end());
    findings.push_back({flag, false});
}

void add_not_judged(Findings& findings, const Context& context, const Dosing& dosing) {
    std::vector<std::size_t> future;
    for (std::size_t i = 0; i < context.input.diary.intake.size(); ++i)
        if (context.intake(i).taken_at > context.input.as_of) future.push_back(i);
    add(findings, context, "entry-in-future", future);
    for (const std::string& agent : dosing.unknown_agents)
        add(findings, context, "agent-unknown",
            entries_where(dosing,
                          [&](auto&, auto& entry) { return context.intake(entry.intake).drug == agent; }),
            {{"drug", agent}});
}

}  // namespace

Flag flag_of(const Context& context, std::string rule, Args args, const std::vector<std::size_t>& entries) {
    Flag flag{std::move(rule), std::move(args), {}};
    for (const auto i : entries) flag.entries.push_back(entry_name(context.intake(i)));
    return flag;
}

std::string dose_name(const Context& context, Day day, const DoseTime& dose) {
    return entry_name(Intake{time_in_diary_day(day, dose.at, context.begins), dose.drug, dose.amount,
                             TakenWhy::unsaid, ""}) +
           std::string(kNotWrittenDown);
}

std::vector<Finding> counted(const Context& context, const Dosing& dosing, const Measures& measures,
                             const std::vector<Interval>& between) {
    Findings findings;
    const auto matched = [](EntryMatch match) {
        return
            [match](const DayRow& row, const RowEntry& entry) { return row.judged && entry.match == match; };
    };
    add_missed(findings, context, dosing);
    add(findings, context, "doses-extra", entries_where(dosing, matched(EntryMatch::extra)));
    add(findings, context, "doses-other-amount",
        entries_where(dosing, [](auto& row, auto& entry) { return row.judged && entry.other_amount; }));
    add(findings, context, "late-dose", entries_where(dosing, [](auto& row, auto& entry) {
            return row.judged && (entry.match == EntryMatch::late || entry.match == EntryMatch::early);
        }));
    add_gaps(findings, context, between);
    if (measures.for_symptoms > 0)
        add(findings, context, "doses-for-symptoms", entries_where(dosing, [&](auto& row, auto& entry) {
                return row.judged && counts(entry) && context.intake(entry.intake).why == TakenWhy::symptoms;
            }));
    const auto any = [](EntryMatch match) {
        return [match](const DayRow&, const RowEntry& entry) { return entry.match == match; };
    };
    add(findings, context, "likely-slip", entries_where(dosing, any(EntryMatch::slip)));
    add(findings, context, "likely-duplicate", entries_where(dosing, any(EntryMatch::duplicate)));
    add_not_judged(findings, context, dosing);
    return findings;
}

}  // namespace evenfall::stabilization
