// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/plan_base.h"

#include <algorithm>

namespace evenfall {
namespace {

using std::chrono::days;

/// Signed steps that stay: those before the step to OFF, and in a hold only those that had begun.
void count_steps(PlanBase& base) {
    for (const Step& step : base.in_force->steps) {
        if (step.status != StepStatus::committed || step.daily.is_zero() || is_kept_back(step, base.hold))
            break;
        ++base.agreed;
        if (step.starts <= base.today) base.begun = base.agreed;
    }
}

void take_agents(PlanBase& base) {
    base.agents = agents_of(base.now);
    for (const std::string& agent : agents_of(base.start))
        if (std::ranges::find(base.agents, agent) == base.agents.end()) base.agents.push_back(agent);
    if (base.in_force && std::ranges::find(base.agents, base.in_force->request.drug) == base.agents.end())
        base.agents.push_back(base.in_force->request.drug);
}

}  // namespace

std::optional<PlanBase> plan_base(const PatientRecord& record, const Course& course, Day today) {
    PlanBase base;
    base.today = today;
    if (record.products) base.chosen = record.products->value.products;
    if (const auto* plan = plan_in_force(record)) {
        base.in_force = plan->value.plan;
        base.replaces = plan->id;
        base.start = plan->value.plan.start;
        base.hold = open_hold(record);
        count_steps(base);
    } else if (const auto* regimen = regimen_in_force(record, today)) {
        base.start = regimen->value.regimen.regimen;
    }
    if (course.today && !course.today->doses.empty()) base.now = *course.today;
    if (!base.in_force && !record.plans.empty() && !base.now.doses.empty()) base.start = base.now;
    if (base.start.doses.empty()) base.start = base.now;
    if (base.start.doses.empty()) return std::nullopt;
    if (base.now.doses.empty()) base.now = base.start;
    // After OFF what was taken before is no ground for a plan: tolerance is lost.
    const bool off = !record.plans.empty() && course.today && course.today->doses.empty();
    if (off) return std::nullopt;
    take_agents(base);
    return base;
}

Day first_free_day(const PlanBase& base, int keep) {
    const Day reviewed = base.hold ? base.hold->review_on : base.today;
    if (!base.in_force || keep == 0) return std::max(base.today, reviewed);
    const Step& last = base.in_force->steps[static_cast<std::size_t>(keep) - 1];
    const Day after =
        std::max({base.today, last.starts + days(1), last.starts + days(last.days.value_or(1))});
    return std::max(after, reviewed);
}

std::vector<Product> candidate_products(const Formulary& formulary, const std::string& drug) {
    std::vector<Product> candidates;
    if (const Drug* known = formulary.find(drug))
        for (const ListedProduct& listed : known->products)
            if (listed.for_steps && !is_modified_release(listed.product.form))
                candidates.push_back(listed.product);
    return candidates;
}

std::optional<Product> product_that_moves(const Flag& flag, const std::vector<Product>& candidates) {
    const auto named = flag.args.find("product");
    if (flag.rule != "floor-would-move" || named == flag.args.end()) return std::nullopt;
    for (const Product& candidate : candidates) {
        const std::string name = product_name(candidate);
        if (named->second == name || named->second == name + ", " + word(candidate.cuts)) return candidate;
    }
    return std::nullopt;
}

TaperInput taper_input(const Formulary& formulary, const std::string& drug, Regimen start,
                       std::vector<Product> products) {
    TaperInput input{std::move(start), std::move(products), candidate_products(formulary, drug), 0};
    if (const Drug* known = formulary.find(drug))
        input.slowest_half_life_h = slowest_half_life_h(known->kinetics);
    return input;
}

Use use_of(const PatientRecord& record) {
    return record.regimens.empty() ? Use::scheduled : record.regimens.back().value.use;
}

std::vector<Change> end_plan(const PlanBase& base, Use use, std::string reason) {
    std::vector<Change> changes{PlanEnded{base.today, std::move(reason)}};
    const bool off = base.in_force && base.in_force->steps.back().daily.is_zero() &&
                     base.in_force->steps.back().status == StepStatus::committed &&
                     base.in_force->steps.back().starts <= base.today;
    if (!off) changes.push_back(RegimenRecorded{{base.today, base.now}, use});
    return changes;
}

}  // namespace evenfall
