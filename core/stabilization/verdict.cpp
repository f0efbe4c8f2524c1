// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/verdict.h"

#include <algorithm>
#include <cmath>

namespace evenfall::stabilization {

namespace {

/// The entries that made days differ from what was intended, and the doses that were missed.
std::vector<std::string> unlike_entries(const Context& context, const Dosing& dosing) {
    std::vector<std::string> names;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        for (const auto d : row.missed) names.push_back(dose_name(context, row.day, row.intended[d]));
        for (const RowEntry& entry : row.entries)
            if (entry.match == EntryMatch::extra || entry.other_amount)
                names.push_back(entry_name(context.intake(entry.intake)));
    }
    return names;
}

/// `part` of `whole` compared with a share exactly.
bool below(int part, int whole, const Share& share) {
    return Share::of(part, std::max(whole, 1)) < share;
}

std::string one_decimal(double share) {
    return print_percent(Share::of(std::llround(share * 100000), 100000));
}

Flag with_measures(const Context& context, const Dosing& dosing, const Measures& measures, const char* rule) {
    return {rule,
            {{"as_intended", std::to_string(measures.days_as_intended)},
             {"days", std::to_string(measures.recorded_days)},
             {"off_percent", one_decimal(measures.total_off_intended)}},
            unlike_entries(context, dosing)};
}

std::vector<std::size_t> all_entries(const Dosing& dosing) {
    std::vector<std::size_t> entries;
    for (const DayRow& row : dosing.rows)
        for (const RowEntry& entry : row.entries)
            if (row.judged && counts(entry)) entries.push_back(entry.intake);
    return entries;
}

}  // namespace

Verdict judge(const Context& context, const Dosing& dosing, const Measures& measures,
              const std::vector<Finding>& found, std::vector<Flag>& flags) {
    const Rules& rules = context.rules;
    if (context.input.diary.use == Use::unknown) {
        flags.push_back({"use-unknown", {}, {}});
        return Verdict::too_little;
    }
    if (measures.recorded_days < rules.whole("diary-days", "least_days")) {
        flags.push_back({"diary-days", {{"days", std::to_string(measures.recorded_days)}}, {}});
        return Verdict::too_little;
    }
    if (context.input.diary.use == Use::as_needed) {
        flags.push_back(flag_of(context, "use-as-needed",
                                {{"days_with", std::to_string(measures.days_with)},
                                 {"days_without", std::to_string(measures.days_without)}},
                                all_entries(dosing)));
        return Verdict::erratic;
    }
    const auto off_limit = [&](const char* rule) {
        return rules.number(rule, "total_percent") / 100 + 1e-12;
    };
    const auto days_below = [&](const char* rule) {
        return below(measures.days_as_intended, measures.recorded_days, rules.percent(rule, "days_percent"));
    };
    if (days_below("erratic-limits") || measures.total_off_intended > off_limit("erratic-limits")) {
        flags.push_back(with_measures(context, dosing, measures, "erratic-limits"));
        return Verdict::erratic;
    }
    const bool pattern =
        std::any_of(found.begin(), found.end(), [](const Finding& each) { return each.forbids_steady; });
    if (days_below("steady-limits") || measures.total_off_intended > off_limit("steady-limits") || pattern) {
        flags.push_back(with_measures(context, dosing, measures, "steady-limits"));
        return Verdict::uneven;
    }
    flags.push_back(with_measures(context, dosing, measures, "steady-limits"));
    return Verdict::steady;
}

}  // namespace evenfall::stabilization
