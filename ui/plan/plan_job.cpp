// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_job.h"

#include <algorithm>

#include "planning/adjust.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

Plan first_steps(const Plan& plan, int count) {
    Plan kept = plan;
    kept.steps.resize(static_cast<std::size_t>(count));
    return kept;
}

/// The regimen whose dose times the next steps go by: that before the plan, unless the step before them has
/// dose times of its own.
Regimen ground_of(const Plan& plan, int keep) {
    if (keep == 0) return plan.start;
    const Step& last = plan.steps[static_cast<std::size_t>(keep) - 1];
    for (const PlannedDose& dose : last.doses) {
        const bool known = std::ranges::any_of(plan.start.doses, [&](const DoseTime& each) {
            return each.at == dose.at && each.drug == dose.drug;
        });
        if (!known) return regimen_of(last);
    }
    return plan.start;
}

/// The steps after the kept ones planned anew.
Result<Plan> plan_on(const Plan& before, int keep, Day resume, const PlanJob& job, const Rules& rules,
                     std::stop_token stop) {
    Replan change{keep, resume, job.request, job.input};
    change.input.start = ground_of(before, keep);
    auto plan = replan(before, change, rules, stop);
    if (plan) plan->start = before.start;
    return plan;
}

/// Stages that are not signed begin on the day that is asked for, each as long after the other as before; the
/// first cut after them moves along.
Plan stages_from(const Plan& before, int keep, Day next) {
    Plan stages = first_steps(before, crossover_stages(before));
    const auto open = static_cast<std::size_t>(keep);
    const auto later = next - stages.steps[open].starts;
    if (open > 0 && next <= stages.steps[open - 1].starts) return stages;
    for (std::size_t i = open; i < stages.steps.size(); ++i) stages.steps[i].starts += later;
    if (open > 0)
        stages.steps[open - 1].days = static_cast<int>((next - stages.steps[open - 1].starts).count());
    const auto first_cut = first_cut_after_crossover(before);
    for (Flag& flag : stages.steps.back().flags)
        if (flag.rule == "crossover-first-cut" && first_cut) flag.args["day"] = print_day(*first_cut + later);
    return stages;
}

Result<Plan> rest_of_crossover(const PlanJob& job, const Rules& rules, std::stop_token stop) {
    const Plan stages = stages_from(*job.before, job.keep, job.request.start);
    PlanRequest request = job.request;
    request.start = first_cut_after_crossover(stages).value_or(stages.steps.back().starts + days(1));
    auto plan = taper_after_crossover(stages, request, job.input, rules, stop);
    if (plan) plan->request.start = job.request.start;
    return plan;
}

Result<Plan> first_plan(const PlanJob& job, const Rules& rules, std::stop_token stop) {
    if (job.crossing) return taper_after_crossover(*job.crossing, job.request, job.input, rules, stop);
    const bool same_agent = job.before && job.before->request.drug == job.request.drug;
    if (same_agent && crossover_stages(*job.before) > job.keep) return rest_of_crossover(job, rules, stop);
    if (!job.before || job.keep == 0) return plan_taper(job.request, job.input, rules, stop);
    return plan_on(*job.before, job.keep, job.request.start, job, rules, stop);
}

/// A step by hand, and the way on from it. The last step before OFF has nothing to plan after it.
Result<Plan> lay_by_hand(const Plan& plan, int at, const HandStep& hand, const PlanJob& job,
                         const Rules& rules, std::stop_token stop) {
    auto laid = with_hand_step(plan, at, hand, rules);
    if (!laid) return laid.faults();
    const Step& step = laid->steps.back();
    const Day resume = step.starts + days(step.days.value_or(job.request.days_per_step));
    if (job.request.end_amount && step.daily <= *job.request.end_amount) {
        laid->steps.back().days.reset();
        return laid;
    }
    return plan_on(*laid, at + 1, resume, job, rules, stop);
}

void commit_steps(Plan& plan, int keep, int count) {
    for (std::size_t i = static_cast<std::size_t>(keep); i < plan.steps.size(); ++i) {
        const bool agreed = static_cast<int>(i) - keep < count && !plan.steps[i].daily.is_zero();
        plan.steps[i].status = agreed ? StepStatus::committed : StepStatus::outlook;
    }
}

}  // namespace

Result<Plan> compute_plan(const PlanJob& job, const Rules& rules, std::stop_token stop) {
    auto plan = first_plan(job, rules, stop);
    for (const auto& [at, hand] : job.by_hand) {
        if (!plan) return plan;
        if (at < job.keep || at >= static_cast<int>(plan->steps.size())) continue;
        plan = lay_by_hand(*plan, at, hand, job, rules, stop);
    }
    if (!plan) return plan;
    // The taper after a crossover is agreed once every stage is.
    const int stages_left = crossover_stages(*plan) - job.keep;
    const int count = job.request.commit_steps;
    commit_steps(*plan, job.keep, stages_left > 0 ? std::min(count, stages_left) : count);
    return plan;
}

PlanMade make_plan(const PlanJob& job, const Formulary& formulary, const Rules& rules, std::stop_token stop) {
    PlanMade made{compute_plan(job, rules, stop), {}};
    if (made.plan && !stop.stop_requested()) made.figures = figures_of(*made.plan, formulary, job.prices);
    return made;
}

Result<HandStep> smaller_next(const PlanJob& job, Share cut, const Rules& rules, std::stop_token stop) {
    const auto plan = compute_plan(job, rules, stop);
    if (!plan) return plan.faults();
    Replan change{job.keep, job.request.start, job.request, job.input};
    if (job.keep > 0) change.input.start = ground_of(*plan, job.keep);
    const auto smaller = with_smaller_next_cut(*plan, change, cut, rules, stop);
    if (!smaller) return smaller.faults();
    const Step& step = smaller->steps[static_cast<std::size_t>(job.keep)];
    return HandStep{step.starts, regimen_of(step).doses, step.days};
}

PlanSummary summarise(const Plan& plan) {
    PlanSummary summary;
    if (plan.steps.empty()) return summary;
    summary.stages = crossover_stages(plan);
    summary.steps = static_cast<int>(plan.steps.size()) - summary.stages;
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
