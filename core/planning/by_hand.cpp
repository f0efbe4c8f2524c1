// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/by_hand.h"

#include <algorithm>

#include "planning/crossover_person.h"
#include "planning/pieces.h"
#include "planning/taper_flags.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using std::chrono::days;

constexpr std::string_view kStageRule = "crossover-review";  // each stage of a crossover bears it

const Flag* flag_of(const Step& step, std::string_view rule) {
    const auto found = std::ranges::find(step.flags, rule, &Flag::rule);
    return found == step.flags.end() ? nullptr : &*found;
}

Regimen before_step(const Plan& plan, std::size_t index) {
    return index == 0 ? plan.start : regimen_of(plan.steps[index - 1]);
}

Fault fault(const char* id, int number, Args args = {}) {
    return {id, "step " + std::to_string(number), std::move(args)};
}

void check_order(const HandStep& step, int number, Faults& faults) {
    for (std::size_t i = 1; i < step.doses.size(); ++i) {
        const DoseTime &one = step.doses[i - 1], &next = step.doses[i];
        if (next.at < one.at || (next.at == one.at && next.drug == one.drug))
            faults.push_back(fault("hand-order", number, {{"at", print_clock(next.at)}}));
    }
}

Fault not_makeable(const PieceTable& table, const DoseTime& dose, int number) {
    const auto [below, above] = table.nearest(dose.amount);
    return fault("hand-not-makeable", number,
                 {{"amount", print_dose(dose.amount)},
                  {"drug", dose.drug},
                  {"at", print_clock(dose.at)},
                  {"below", print_dose(below.value_or(Dose()))},
                  {"above", above ? print_dose(*above) : print_dose(below.value_or(Dose()))}});
}

/// The doses of one agent with the pieces of the whole day; without pieces where the plan has none of it.
void add_pieces(const Plan& plan, const HandStep& step, const Rules& rules, int number,
                std::vector<PlannedDose>& planned, Faults& faults) {
    std::vector<Dose> amounts;
    Dose most;
    for (const DoseTime& dose : step.doses)
        if (dose.drug == plan.request.drug) {
            amounts.push_back(dose.amount);
            most = std::max(most, dose.amount);
        }
    const PieceTable table(plan.products, plan.request.drug, PieceWeights::from(rules), most + most);
    for (const DoseTime& dose : step.doses)
        if (dose.drug == plan.request.drug && !table.makes(dose.amount))
            faults.push_back(not_makeable(table, dose, number));
    if (!faults.empty()) return;
    const auto pieces = table.day_pieces(amounts);
    std::size_t next = 0;
    for (const DoseTime& dose : step.doses) {
        planned.push_back({dose.at, dose.drug, dose.amount, {}});
        if (dose.drug == plan.request.drug && pieces) planned.back().pieces = (*pieces)[next++];
    }
}

void flag_rises(const Regimen& before, const Plan& plan, Step& step) {
    if (step.daily > daily_amount(before, plan.request.drug)) return;  // going back up is asked about whole
    for (const PlannedDose& dose : step.doses)
        for (const DoseTime& last : before.doses)
            if (dose.drug == plan.request.drug && last.drug == dose.drug && last.at == dose.at &&
                dose.amount > last.amount)
                step.flags.push_back({"dose-time-rises",
                                      {{"drug", dose.drug},
                                       {"at", print_clock(dose.at)},
                                       {"from", print_dose(last.amount)},
                                       {"to", print_dose(dose.amount)}},
                                      {}});
}

HandStep without_nothing(HandStep step) {
    std::erase_if(step.doses, [](const DoseTime& dose) { return dose.amount <= Dose(); });
    return step;
}

/// What is wrong with a step before its pieces are looked for.
Faults check_step(const Plan& plan, int keep, const HandStep& step) {
    const int number = keep + 1;
    if (keep < 0 || keep > static_cast<int>(plan.steps.size())) return {fault("hand-no-such-step", number)};
    Faults faults;
    if (keep > 0 && step.starts <= plan.steps[static_cast<std::size_t>(keep) - 1].starts)
        faults.push_back(
            fault("hand-early", number,
                  {{"day", print_day(step.starts)},
                   {"after", print_day(plan.steps[static_cast<std::size_t>(keep) - 1].starts)}}));
    if (std::ranges::find(step.doses, plan.request.drug, &DoseTime::drug) == step.doses.end())
        faults.push_back(fault("hand-nothing", number, {{"drug", plan.request.drug}}));
    check_order(step, number, faults);
    return faults;
}

}  // namespace

Regimen regimen_of(const Step& step) {
    Regimen regimen;
    for (const PlannedDose& dose : step.doses)
        regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    return regimen;
}

Result<Plan> with_hand_step(const Plan& plan, int keep, const HandStep& wanted, const Rules& rules) {
    const HandStep hand = without_nothing(wanted);
    Faults faults = check_step(plan, keep, hand);
    Step step;
    step.number = keep + 1;
    step.starts = hand.starts;
    step.days = hand.days.value_or(plan.request.days_per_step);
    step.status = StepStatus::committed;
    if (faults.empty()) add_pieces(plan, hand, rules, step.number, step.doses, faults);
    if (!faults.empty()) return faults;
    Plan laid = plan;
    laid.steps.resize(static_cast<std::size_t>(keep));
    laid.floor = {};
    laid.flags.clear();
    if (keep > 0) laid.steps.back().days = static_cast<int>((step.starts - laid.steps.back().starts).count());
    const Regimen before = before_step(laid, static_cast<std::size_t>(keep));
    const Dose last = daily_amount(before, plan.request.drug);
    for (const PlannedDose& dose : step.doses)
        if (dose.drug == plan.request.drug) step.daily += dose.amount;
    if (!last.is_zero()) step.percent_of_last = Share::cut(last, step.daily);
    flag_rises(before, plan, step);
    laid.steps.push_back(std::move(step));
    const bool over = laid.steps.back().percent_of_last > plan.request.cap;
    planning::flag_steps(laid, {{over, false}}, static_cast<std::size_t>(keep), rules);
    return laid;
}

Plan plan_of_crossover(const PlanRequest& request, const CrossoverInput& input,
                       const CrossoverPlan& crossover) {
    Plan plan{request, input.regimen, input.products, {}, {}, 0, {}};
    plan.request.start = input.start;
    for (const CrossoverStage& stage : crossover.stages) {
        Step step;
        step.number = static_cast<int>(plan.steps.size()) + 1;
        step.starts = stage.starts;
        step.days = crossover.days_per_stage;
        const auto daily = stage.daily.find(request.drug);
        if (daily != stage.daily.end()) step.daily = daily->second;
        step.status = step.number <= request.commit_steps ? StepStatus::committed : StepStatus::outlook;
        step.doses = stage.doses;
        step.flags = stage.flags;
        plan.steps.push_back(std::move(step));
    }
    return plan;
}

int crossover_stages(const Plan& plan) {
    int stages = 0;
    while (stages < static_cast<int>(plan.steps.size()) &&
           flag_of(plan.steps[static_cast<std::size_t>(stages)], kStageRule))
        ++stages;
    return stages;
}

std::optional<Day> first_cut_after_crossover(const Plan& plan) {
    const int stages = crossover_stages(plan);
    if (stages == 0) return std::nullopt;
    const Flag* says = flag_of(plan.steps[static_cast<std::size_t>(stages) - 1], "crossover-first-cut");
    if (!says) return std::nullopt;
    const auto day = says->args.find("day");
    if (day == says->args.end()) return std::nullopt;
    const auto read = parse_day(day->second, "day");
    return read ? std::optional(*read) : std::nullopt;
}

std::vector<Flag> case_against_crossing(const CrossoverPlan& plan) {
    std::vector<Flag> against;
    for (const Flag& flag : plan.stages.front().flags)
        if (speaks_against_crossing(flag)) against.push_back(flag);
    return against;
}

std::vector<Flag> care_in_crossing(const CrossoverPlan& plan) {
    std::vector<Flag> care;
    for (const CrossoverStage& stage : plan.stages)
        for (const Flag& flag : stage.flags)
            if (!speaks_against_crossing(flag) && std::ranges::find(care, flag) == care.end())
                care.push_back(flag);
    return care;
}

Result<Plan> taper_after_crossover(const Plan& crossover, PlanRequest request, TaperInput input,
                                   const Rules& rules, const std::stop_token& stop) {
    const int stages = crossover_stages(crossover);
    if (stages == 0) return fault("hand-no-such-step", 0);
    const Step& last = crossover.steps[static_cast<std::size_t>(stages) - 1];
    Replan change;
    change.keep = stages;
    change.request = std::move(request);
    change.resume = std::max(change.request.start, last.starts + days(1));
    change.input = std::move(input);
    change.input.start = regimen_of(last);  // the dose times of the new agent
    auto plan = replan(crossover, change, rules, stop);
    if (!plan) return plan.faults();
    plan->start = crossover.start;
    const auto first_cut = first_cut_after_crossover(crossover);
    if (first_cut && change.resume < *first_cut && plan->steps.size() > static_cast<std::size_t>(stages))
        plan->steps[static_cast<std::size_t>(stages)].flags.push_back(
            {"crossover-first-cut", {{"day", print_day(*first_cut)}}, {}});
    for (std::size_t i = static_cast<std::size_t>(stages); i < plan->steps.size(); ++i)
        plan->steps[i].status = StepStatus::outlook;
    return plan;
}

}  // namespace evenfall
