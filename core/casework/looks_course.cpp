// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cstdio>

#include "casework/looking.h"
#include "casework/response_of.h"
#include "casework/supply_left.h"
#include "planning/by_hand.h"
#include "units/dose_text.h"

namespace evenfall::casework {
namespace {

using std::chrono::days;

std::string points(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", value);
    return text;
}

/// The next step of the plan that has not begun.
const Step* next_step(const Looking& looking) {
    const auto* plan = plan_in_force(looking.record);
    if (!plan || looking.course.on_hold) return nullptr;
    for (const Step& step : plan->value.plan.steps)
        if (step.starts > looking.today()) return &step;
    return nullptr;
}

}  // namespace

void look_at_supply(Looking& looking) {
    const auto out = supply_runs_out(looking.record, looking.course);
    if (!out) return;
    const Day today = looking.today();
    const Day last = *out - days(1);
    Args args = {{"on", print_day(last)}, {"days", in_days(today, last)}};
    if (last < today) return looking.add(Urgency::today, "supply-ended", args);
    if (last <= today + days(looking.rules().whole("supply-ends-today", "days")))
        return looking.add(Urgency::today, last == today ? "supply-ends-today" : "supply-ends-tomorrow",
                           args);
    if (last <= today + days(looking.rules().whole("supply-ends-soon", "days")))
        return looking.add(Urgency::this_week, "supply-ends-soon", args);
    const Step* next = next_step(looking);
    if (!next || next->starts <= *out ||
        next->starts > today + days(looking.rules().whole("supply-before-step", "days")))
        return;
    args["step"] = std::to_string(next->number);
    args["step_on"] = print_day(next->starts);
    looking.add(Urgency::this_week, "supply-before-step", args);
}

void look_at_hold(Looking& looking) {
    const auto hold = open_hold(looking.record);
    if (!looking.course.on_hold || !hold) return;
    const Day review = hold->review_on;
    if (review <= looking.today())
        looking.add(Urgency::today, "hold-ended", {{"on", print_day(review)}});
    else if (review <= looking.today() + days(looking.rules().whole("hold-ends", "days")))
        looking.add(Urgency::this_week, "hold-ends", {{"on", print_day(review)}});
}

void look_at_steps(Looking& looking) {
    const auto* plan = plan_in_force(looking.record);
    if (!plan || looking.course.on_hold) return;
    const auto& steps = plan->value.plan.steps;
    const auto next = std::ranges::find(steps, StepStatus::outlook, &Step::status);
    if (next == steps.end()) return;
    const Args args = {{"step", std::to_string(next->number)},
                       {"on", print_day(next->starts)},
                       {"dose", print_dose(next->daily)}};
    if (next->starts <= looking.today())
        looking.add(Urgency::today, "step-due-unsigned", args);
    else if (next->starts <= looking.today() + days(looking.rules().whole("step-due-soon", "days")))
        looking.add(Urgency::this_week, "step-due-soon", args);
    // While agents trade places little of the new one is no floor, and what comes before it is none either.
    const Course& course = looking.course;
    const int step = course.current ? course.stretches[*course.current].step : 0;
    const bool crossing = step > 0 && step <= crossover_stages(plan->value.plan);
    const auto& floor = plan->value.plan.floor.amount;
    if (floor && !crossing && course.drug == plan->value.plan.request.drug && course.daily_today <= *floor)
        looking.add(Urgency::this_week, "at-the-floor", {{"dose", print_dose(looking.course.daily_today)}});
}

/// How the last step is borne, against the days before it and against the step before.
void look_at_response(Looking& looking) {
    if (!plan_in_force(looking.record) || looking.record.symptoms.empty()) return;
    const auto input = response_input(looking.record, looking.course, looking.ground, looking.as_of);
    const auto steps = judge_steps(input, looking.ground.formulary, looking.rules());
    if (steps.empty() || !steps.back().rise || steps.back().settled) return;
    const StepResponse& last = steps.back();
    Args args = {{"number", std::to_string(last.number)},
                 {"rise", points(last.rise->latest)},
                 {"days", std::to_string(last.days)},
                 {"level", points(last.rise->before + last.rise->latest)}};
    if (last.rise->latest >= looking.rules().number("decide-marked", "rise") ||
        last.rise->before + last.rise->latest >= looking.rules().number("decide-marked", "level"))
        return looking.add(Urgency::today, "decide-marked", args);
    const StepResponse* earlier = steps.size() > 1 ? &steps[steps.size() - 2] : nullptr;
    const double was = earlier && earlier->rise ? earlier->rise->rise : 0;
    if (last.rise->latest - was < looking.rules().number("response-worse", "points")) return;
    args["earlier"] = points(was);
    looking.add(Urgency::this_week, "response-worse", args);
}

/// Days of the last week on which what was taken differs from what was meant.
void look_at_dosing(Looking& looking) {
    const Day from = looking.days_ago("dosing-uneven", "days");
    const int percent = looking.rules().whole("dosing-uneven", "percent");
    int off = 0, seen = 0;
    for (const TakenDay& day : looking.course.taken) {
        if (day.day < from || day.day >= looking.today() || !day.planned || day.planned->is_zero()) continue;
        ++seen;
        const Dose apart = day.total > *day.planned ? day.total - *day.planned : *day.planned - day.total;
        off += apart * 100 > *day.planned * percent;
    }
    if (off >= looking.rules().whole("dosing-uneven", "least"))
        looking.add(Urgency::this_week, "dosing-uneven",
                    {{"count", std::to_string(off)}, {"seen", std::to_string(seen)}});
}

/// A gate that was gone round presses until an outcome is signed.
void look_before_the_first_plan(Looking& looking) {
    const PatientRecord& record = looking.record;
    if (!record.plans.empty()) {
        if (plan_in_force(record) && !record.suitability) looking.add(Urgency::this_week, "suitability-open");
        return;
    }
    if (record.regimens.empty()) return looking.add(Urgency::this_week, "intake-open");
    if (!record.suitability) return looking.add(Urgency::this_week, "suitability-open");
    if (record.suitability->value.outcome == SuitabilityOutcome::outpatient_taper)
        looking.add(Urgency::this_week, "plan-open");
}

}  // namespace evenfall::casework
