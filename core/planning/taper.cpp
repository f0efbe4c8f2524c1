// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/taper.h"

#include <algorithm>
#include <cmath>

#include "planning/floor.h"
#include "planning/kept_pieces.h"
#include "planning/pace.h"
#include "planning/path.h"
#include "planning/percent_text.h"
#include "planning/taper_check.h"
#include "planning/taper_flags.h"
#include "planning/taper_ground.h"
#include "units/dose_text.h"

namespace evenfall {

namespace {

using namespace planning;

Fault unreachable(const PlanRequest& request, const Ground& ground, const std::stop_token& stop) {
    if (stop.stop_requested()) return {"plan-stopped", "plan", {}};
    const auto end = request.end_amount ? request.end_amount : request.last_dose;
    if (!end) return {"plan-end-not-reached", "plan", {}};
    const bool on_grid = end->ng() % ground.table.unit().ng() == 0;
    const std::string what = request.end_amount ? "end" : "last";
    const std::string place = request.end_amount ? "plan.end" : "plan.last_dose_mg";
    const Dose below = ground.table.unit() * (end->ng() / ground.table.unit().ng());
    return {on_grid ? "plan-end-not-reached" : "plan-" + what + "-not-makeable",
            place,
            {{"amount", print_dose(*end)},
             {"below", print_dose(below)},
             {"above", print_dose(below + ground.table.unit())}}};
}

Result<Path> way_down(const PlanRequest& request, const Ground& ground, const PathQuery& query,
                      const std::stop_token& stop) {
    const auto end = request.end_amount ? request.end_amount : request.last_dose;
    if (end && end->ng() % ground.table.unit().ng() != 0) return unreachable(request, ground, stop);
    auto path = find_path(*ground.shape, ground.table, query, stop);
    if (!path) return unreachable(request, ground, stop);
    return *std::move(path);
}

void add_steps(Plan& plan, const Ground& ground, const Path& path, const Rules& rules) {
    const PieceWeights weights = PieceWeights::from(rules);
    const int allowed = rules.whole("piece-weights", "kept");
    Dose last = plan.steps.empty() ? daily_amount(plan.start, plan.request.drug) : plan.steps.back().daily;
    for (const PathStep& each : path.steps) {
        Step step;
        step.number = static_cast<int>(plan.steps.size()) + 1;
        for (const Dose dose : doses_in(each.amounts, ground.table)) step.daily += dose;
        step.percent_of_last = Share::cut(last, step.daily);
        step.doses = planned_doses(ground, plan.start, each.amounts);
        if (!plan.steps.empty())
            keep_pieces(step.doses, plan.steps.back().doses, plan.request.drug, ground.table.products(),
                        weights, allowed);
        last = step.daily;
        plan.steps.push_back(std::move(step));
    }
}

void add_off(Plan& plan) {
    if (plan.request.end_amount || plan.steps.empty()) return;
    Step off;
    off.number = static_cast<int>(plan.steps.size()) + 1;
    off.percent_of_last = Share::percent(100);
    // OFF is of this agent alone: the others go on as they are.
    for (const DoseTime& dose : plan.start.doses)
        if (dose.drug != plan.request.drug) off.doses.push_back({dose.at, dose.drug, dose.amount, {}});
    plan.steps.push_back(off);
}

// Days and dates from the step at `from` on; the steps before it stay as they are.
void date_steps(Plan& plan, std::size_t from, Day start) {
    std::vector<Dose> daily{daily_amount(plan.start, plan.request.drug)};
    for (const Step& step : plan.steps)
        if (!step.daily.is_zero()) daily.push_back(step.daily);
    const std::vector<int> days = stays(plan.request, daily);
    Day at = start;
    for (std::size_t i = from; i < plan.steps.size(); ++i) {
        plan.steps[i].starts = at;
        if (plan.steps[i].daily.is_zero()) continue;
        plan.steps[i].days = days[i];
        at += std::chrono::days(days[i]);
    }
}

void commit_steps(Plan& plan, std::size_t from) {
    for (std::size_t i = from; i < plan.steps.size(); ++i) {
        const bool agreed =
            static_cast<int>(i - from) < plan.request.commit_steps && !plan.steps[i].daily.is_zero();
        plan.steps[i].status = agreed ? StepStatus::committed : StepStatus::outlook;
    }
}

double evenness_of(const Plan& plan) {
    const double target = -std::log1p(-plan.request.target.value());
    Dose last = daily_amount(plan.start, plan.request.drug);
    double sum = 0;
    int count = 0;
    for (const Step& step : plan.steps) {
        if (step.daily.is_zero()) break;
        const double off = std::log(last.mg() / step.daily.mg()) - target;
        sum += off * off;
        ++count;
        last = step.daily;
    }
    return count > 0 ? sum / count : 0;
}

void flag_test(Plan& plan, const TaperInput& input, bool found, const Rules& rules) {
    if (!plan.request.test_reduction || plan.steps.empty() || plan.steps.front().daily.is_zero()) return;
    Step& first = plan.steps.front();
    const std::string percent = print_percent(first.percent_of_last);
    const int half_lives = rules.whole("test-reduction", "half_lives");
    const int wait = std::max(rules.whole("test-reduction", "wait_days"),
                              static_cast<int>(std::ceil(half_lives * input.slowest_half_life_h / 24)));
    const std::string review_on = print_day(first.starts + std::chrono::days(wait));
    first.flags.push_back({"test-reduction", {{"percent", percent}, {"review_on", review_on}}, {}});
    const auto [cut, target] = percents_apart(first.percent_of_last, plan.request.target);
    if (!found) first.flags.push_back({"test-reduction-none", {{"percent", cut}, {"target", target}}, {}});
}

// Plans from the regimen `from` on, after the steps that the plan has already.
Result<Plan> plan_from(Plan plan, const TaperInput& input, const Ground& ground, const Amounts& from, Day day,
                       const Rules& rules, const std::stop_token& stop) {
    const std::size_t kept = plan.steps.size();
    PathQuery query = query_for(plan.request, input, from, ground.table, rules);
    if (plan.request.test_reduction && kept == 0)
        query.test_least = rules.percent("test-reduction", "least_percent");
    auto path = way_down(plan.request, ground, query, stop);
    if (!path.ok()) return path.faults();
    add_steps(plan, ground, *path, rules);
    add_off(plan);
    date_steps(plan, kept, day);
    commit_steps(plan, kept);
    std::vector<StepNote> notes;
    for (const PathStep& step : path->steps) notes.push_back({step.over_cap, step.smallest});
    flag_steps(plan, notes, kept, rules);
    if (kept == 0) flag_test(plan, input, path->test_found, rules);
    find_floor(plan, input, ground, query, *path, rules, stop);
    flag_plan(plan, kept, input.today, rules);
    plan.evenness = evenness_of(plan);
    if (stop.stop_requested()) return Fault{"plan-stopped", "plan", {}};
    return plan;
}

}  // namespace

Result<Plan> plan_taper(const PlanRequest& request, const TaperInput& input, const Rules& rules,
                        const std::stop_token& stop) {
    Faults faults = check_request(request, input);
    const Ground ground = lay_ground(request, input, input.products, rules);
    const Faults more = check_products(request, input, ground.table);
    faults.insert(faults.end(), more.begin(), more.end());
    if (!faults.empty()) return faults;
    Plan plan{request, input.start, input.products, {}, {}, 0, {}};
    return plan_from(std::move(plan), input, ground, amounts_in(ground.times, ground.table), request.start,
                     rules, stop);
}

Result<Plan> replan(const Plan& before, const Replan& change, const Rules& rules,
                    const std::stop_token& stop) {
    if (change.keep == 0) return plan_taper(change.request, change.input, rules, stop);
    const auto count = static_cast<std::size_t>(std::max(change.keep, 0));
    if (change.keep < 0 || count > before.steps.size() || before.steps[count - 1].daily.is_zero())
        return Fault{"replan-no-such-step", "plan", {{"step", std::to_string(change.keep)}}};
    const Step& last = before.steps[count - 1];
    Faults faults = check_request(change.request, change.input);
    if (change.resume <= last.starts)
        faults.push_back({"replan-resume-early",
                          "plan",
                          {{"day", print_day(change.resume)}, {"after", print_day(last.starts)}}});
    const Ground ground = lay_ground(change.request, change.input, change.input.products, rules);
    if (!ground.shape || !faults.empty()) {
        const Faults more = check_products(change.request, change.input, ground.table);
        faults.insert(faults.end(), more.begin(), more.end());
        return faults;
    }
    Amounts from;
    for (const DoseTime& time : ground.times) {
        Dose now;
        for (const PlannedDose& dose : last.doses)
            if (dose.drug == change.request.drug && dose.at == time.at) now = dose.amount;
        if (!ground.table.makes(now))
            faults.push_back({"plan-now-not-makeable",
                              "products",
                              {{"amount", print_dose(now)}, {"at", print_clock(time.at)}}});
        from.push_back(static_cast<std::int32_t>(now.ng() / ground.table.unit().ng()));
    }
    if (!faults.empty()) return faults;
    Plan plan{change.request, change.input.start, change.input.products, {}, {}, 0, {}};
    plan.steps.assign(before.steps.begin(), before.steps.begin() + static_cast<std::ptrdiff_t>(count));
    plan.steps.back().days = static_cast<int>((change.resume - last.starts).count());
    const bool only_off_is_left = count + 1 == before.steps.size() && before.steps.back().daily.is_zero();
    if (only_off_is_left && !change.request.end_amount) {
        plan.floor = before.floor;
        plan.evenness = before.evenness;
        plan.flags = before.flags;
        plan.steps.push_back(before.steps.back());
        plan.steps.back().starts = change.resume;
        plan.steps.back().status = StepStatus::outlook;
        return plan;
    }
    return plan_from(std::move(plan), change.input, ground, from, change.resume, rules, stop);
}

}  // namespace evenfall
