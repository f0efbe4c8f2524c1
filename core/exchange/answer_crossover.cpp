// SPDX-License-Identifier: GPL-3.0-or-later

#include <cmath>

#include "exchange/answers.h"
#include "planning/crossover.h"
#include "planning/crossover_person.h"
#include "units/share.h"

namespace evenfall::answers {
namespace {

Answered excursion(const Excursion& found, const char* days) {
    Answered shaped = {{"percent", percent(Share::of(std::llround(found.percent * 10), 1000))},
                       {days, found.days}};
    shaped["day"] = found.day ? day(*found.day) : Answered(nullptr);
    return shaped;
}

Answered stage_of(const CrossoverStage& stage, const Rules& rules) {
    Answered daily = Answered::object();
    for (const auto& [drug, dose] : stage.daily) daily[drug] = amount(dose);
    return {{"number", stage.number},
            {"starts", day(stage.starts)},
            {"daily_mg", std::move(daily)},
            {"diazepam_mg", stage.diazepam ? range(*stage.diazepam) : Answered(nullptr)},
            {"doses", doses(stage.doses, true)},
            {"flags", flags(stage.flags, rules)}};
}

/// Every agent that the person might be crossed to, the best suited first, with what speaks for and against
/// it.
Answered other_agents(const Basis& basis, const std::string& from) {
    Answered list = Answered::array();
    const CrossoverPerson person{basis.given.risks, basis.given.other_medicines};
    for (const SuitedAgent& agent : suited_agents(from, person, basis.formulary, basis.rules))
        list.push_back({{"drug", agent.drug},
                        {"slowest_half_life_h", agent.slowest_half_life_h},
                        {"for", flags(agent.speaks_for, basis.rules)},
                        {"against", flags(agent.speaks_against, basis.rules)},
                        {"known", flags(agent.known, basis.rules)}});
    return list;
}

}  // namespace

Result<Answered> crossover(const Basis& basis) {
    const Case& given = basis.given;
    Faults faults;
    if (!given.crossover) faults.push_back(needs("crossover"));
    if (!given.regimen) faults.push_back(needs("regimen"));
    if (given.products.empty()) faults.push_back(needs("products"));
    if (!faults.empty()) return faults;
    const CrossoverAsked& asked = *given.crossover;
    const CrossoverInput input{*given.regimen, asked.from,           asked.to,
                               asked.start,    asked.days_per_stage, given.products,
                               given.risks,    asked.order,          given.other_medicines};
    const auto crossed = plan_crossover(input, basis.formulary, basis.rules);
    if (!crossed) return crossed.faults();
    Answered plans = Answered::array();
    for (const CrossoverPlan& plan : *crossed) {
        Answered stages = Answered::array();
        for (const CrossoverStage& stage : plan.stages) stages.push_back(stage_of(stage, basis.rules));
        plans.push_back({{"stages", std::move(stages)},
                         {"dip", excursion(plan.dip, "days_below_85")},
                         {"overshoot", excursion(plan.overshoot, "days_above_115")},
                         {"steady_on", day(plan.steady_on)}});
    }
    Answered answer = {{"plans", std::move(plans)}, {"other_agents", other_agents(basis, asked.from)}};
    add_overrides(answer, basis);
    return answer;
}

}  // namespace evenfall::answers
