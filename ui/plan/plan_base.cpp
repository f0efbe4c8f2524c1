// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_base.h"

#include <algorithm>

namespace evenfall::ui {

using std::chrono::days;

std::optional<PlanBase> plan_base(const PatientRecord& record, const Course& course, Day today) {
    PlanBase base;
    base.today = today;
    if (record.products) base.chosen = record.products->value.products;
    if (const auto* plan = plan_in_force(record)) {
        base.in_force = plan->value.plan;
        base.replaces = plan->id;
        base.start = plan->value.plan.start;
        for (const Step& step : plan->value.plan.steps) {
            if (step.status != StepStatus::committed || step.daily.is_zero()) break;
            ++base.agreed;
            if (step.starts <= today) base.begun = base.agreed;
        }
    } else if (const auto* regimen = regimen_in_force(record, today)) {
        base.start = regimen->value.regimen.regimen;
    } else if (course.today) {
        base.start = *course.today;
    }
    if (base.start.doses.empty()) return std::nullopt;
    base.agents = agents_of(base.start);
    return base;
}

Day first_free_day(const PlanBase& base, int keep) {
    if (!base.in_force || keep == 0) return base.today;
    const Step& last = base.in_force->steps[static_cast<std::size_t>(keep) - 1];
    return std::max({base.today, last.starts + days(1), last.starts + days(last.days.value_or(1))});
}

Result<Plan> compute_plan(const PlanJob& job, const Rules& rules, std::stop_token stop) {
    if (!job.before || job.keep == 0) return plan_taper(job.request, job.input, rules, stop);
    Replan change;
    change.keep = job.keep;
    change.resume = job.request.start;
    change.request = job.request;
    change.input = job.input;
    change.input.start = job.before->start;
    return replan(*job.before, change, rules, stop);
}

PlanSummary summarise(const Plan& plan) {
    PlanSummary summary;
    if (plan.steps.empty()) return summary;
    summary.steps = static_cast<int>(plan.steps.size());
    summary.days = static_cast<int>((plan.steps.back().starts - plan.steps.front().starts).count());
    summary.ends_off = plan.steps.back().daily.is_zero();
    summary.ends_on = plan.steps.back().starts;
    for (const Step& step : plan.steps) {
        if (step.daily.is_zero()) continue;
        summary.last = step.daily;
        if (summary.largest_cut < step.percent_of_last) summary.largest_cut = step.percent_of_last;
    }
    return summary;
}

}  // namespace evenfall::ui
