// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/looking.h"

namespace evenfall::casework {
namespace {

/// Whether the plan was ended between two commitments, so that both may rightly replace nothing.
bool ended_between(const PatientRecord& record, const Stamp& first, const Stamp& second) {
    return std::ranges::any_of(record.lines, [&](const HistoryLine& line) {
        return line.kind == "plan-ended" && line.standing == Standing::counts &&
               line.stamp.clock > first.clock && line.stamp.clock < second.clock;
    });
}

}  // namespace

/// Two laptops each signed a plan in place of the same one before they met. Neither is chosen silently: a
/// plan that is signed after both settles it.
void look_at_plan_conflict(Looking& looking) {
    const PatientRecord& record = looking.record;
    if (record.plans.size() < 2 || record.plan_ended) return;
    const Entry<PlanCommitted>& last = record.plans.back();
    for (auto other = record.plans.rbegin() + 1; other != record.plans.rend(); ++other) {
        const bool elsewhere = other->stamp.log != last.stamp.log;
        if (!elsewhere || other->value.replaces != last.value.replaces ||
            ended_between(record, other->stamp, last.stamp))
            continue;
        const auto day_of_stamp = [](const Stamp& stamp) { return print_instant(stamp.at).substr(0, 10); };
        return looking.add(Urgency::today, "plans-conflict",
                           {{"one", day_of_stamp(other->stamp)}, {"two", day_of_stamp(last.stamp)}});
    }
}

}  // namespace evenfall::casework
