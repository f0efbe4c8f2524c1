// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/answers.h"
#include "planning/review.h"
#include "planning/supply.h"
#include "units/dose_text.h"

// Equivalence, taper, review and supply.

namespace evenfall::answers {
namespace {

Answered published(const Equivalence& equivalence, const Formulary& formulary) {
    Answered list = Answered::array();
    for (const auto& figure : equivalence.published) {
        const auto source = formulary.sources.find(figure.provenance.source);
        std::string citation =
            source == formulary.sources.end() ? figure.provenance.source : source->second.citation;
        if (figure.provenance.from_memory) citation += " (from memory)";
        const std::string mg = figure.low == figure.high
                                   ? print_mg_digits(figure.low)
                                   : print_mg_digits(figure.low) + "-" + print_mg_digits(figure.high);
        list.push_back({{"mg_per_10_mg_diazepam", mg}, {"source", citation}});
    }
    return list;
}

Answered step_of(const Step& step, const Rules& rules, bool with_drug) {
    Answered shaped = {{"number", step.number}, {"starts", day(step.starts)}};
    if (step.days)
        shaped["days"] = *step.days;
    else
        shaped["days"] = nullptr;
    shaped["daily_mg"] = amount(step.daily);
    shaped["percent_of_last"] = percent(step.percent_of_last);
    shaped["status"] = word(step.status);
    shaped["doses"] = doses(step.doses, with_drug);
    shaped["flags"] = flags(step.flags, rules);
    return shaped;
}

Answered floor_of(const Floor& floor, const Rules& rules) {
    Answered shaped = Answered::object();
    if (floor.amount) {
        shaped["daily_mg"] = amount(*floor.amount);
        shaped["smallest_cut_mg"] = amount(floor.smallest_cut);
    } else {
        shaped["daily_mg"] = nullptr;
        shaped["smallest_cut_mg"] = nullptr;
    }
    shaped["says"] = flags(floor.says, rules);
    return shaped;
}

Answered left_over(const std::vector<OnHand>& items) {
    Answered list = Answered::array();
    for (const OnHand& item : items) {
        const bool liquid = is_liquid(item.product.form);
        const Volume count = liquid ? item.volume : Volume::nanolitres(item.quarters * std::int64_t{250'000});
        list.push_back({{"product", product_name(item.product)}, {"count", print_ml_digits(count)}});
    }
    return list;
}

Answered fill_of(const Fill& fill, const Rules& rules) {
    Answered items = Answered::array();
    for (const SupplyItem& item : fill.items) {
        const bool liquid = is_liquid(item.product.form);
        items.push_back({{"product", product_name(item.product)},
                         {"count", liquid ? print_ml_digits(item.volume) : std::to_string(item.units)}});
    }
    return {{"from", day(fill.from)},
            {"to", day(fill.to)},
            {"items", std::move(items)},
            {"covers_hold_until", day(fill.covers_hold_until)},
            {"left_over", left_over(fill.left_over)},
            {"cost", fill.cost ? Answered(print_cost(*fill.cost)) : Answered(nullptr)},
            {"too_old", left_over(fill.too_old)},
            {"flags", flags(fill.flags, rules)}};
}

}  // namespace

Result<Answered> equivalence(const Basis& basis) {
    if (!basis.given.regimen) return needs("regimen");
    Answered agents = Answered::array();
    DiazepamRange total;
    for (const std::string& agent : agents_of(*basis.given.regimen)) {
        const Drug* drug = basis.formulary.find(agent);
        if (!drug || !drug->equivalence) return Fault{"case-no-equivalence", agent, {{"drug", agent}}};
        const Dose daily = daily_amount(*basis.given.regimen, agent);
        const DiazepamRange diazepam = as_diazepam(daily, *drug->equivalence);
        total = total + diazepam;
        agents.push_back({{"drug", agent},
                          {"daily_mg", amount(daily)},
                          {"diazepam_mg", range(diazepam)},
                          {"usual_source", drug->equivalence->usual_source},
                          {"published", published(*drug->equivalence, basis.formulary)}});
    }
    Answered answer = {{"agents", std::move(agents)}, {"total_diazepam_mg", range(total)}};
    add_overrides(answer, basis);
    return answer;
}

namespace {

Answered plan_shaped(const Plan& plan, const Rules& rules) {
    const bool several = agents_of(plan.start).size() > 1;
    Answered steps = Answered::array();
    for (const Step& step : plan.steps) steps.push_back(step_of(step, rules, several));
    return {{"steps", std::move(steps)},
            {"floor", floor_of(plan.floor, rules)},
            {"evenness", plan.evenness},
            {"flags", flags(plan.flags, rules)}};
}

}  // namespace

Result<Answered> taper(const Basis& basis) {
    const auto plans = plans_of(basis);
    if (!plans) return plans.faults();
    Answered answer = plan_shaped(plans->front(), basis.rules);
    for (std::size_t i = 1; i < plans->size(); ++i) {
        Answered next = {{"drug", (*plans)[i].request.drug}};
        next.update(plan_shaped((*plans)[i], basis.rules));
        answer["then"].push_back(std::move(next));
    }
    add_overrides(answer, basis);
    return answer;
}

Result<Answered> review(const Basis& basis) {
    if (basis.given.schedule.empty()) return needs("schedule");
    ReviewInput input;
    input.schedule = basis.given.schedule;
    input.products = basis.given.products;
    if (basis.given.plan) {
        input.drug = basis.given.plan->drug;
        input.cap = basis.given.plan->cap;
    }
    if (basis.given.as_of_given) input.today = day_of(basis.given.as_of);
    auto reviewed = review_schedule(input, basis.formulary, basis.rules);
    if (!reviewed) return reviewed.faults();
    const Review& judged = *reviewed;
    Answered steps = Answered::array();
    for (const ReviewedStep& step : judged.steps) {
        Answered daily = Answered::object();
        for (const auto& [drug, dose] : step.daily) daily[drug] = amount(dose);
        Answered shaped = {{"number", step.number}, {"starts", day(step.starts)}};
        shaped["days"] = step.days ? Answered(*step.days) : Answered(nullptr);
        shaped["daily_mg"] = std::move(daily);
        shaped["diazepam_mg"] = step.diazepam ? range(*step.diazepam) : Answered(nullptr);
        shaped["percent_of_last"] = step.percent_of_last ? percent(*step.percent_of_last) : Answered(nullptr);
        shaped["percent_of_first"] =
            step.percent_of_first ? percent(*step.percent_of_first) : Answered(nullptr);
        steps.push_back(std::move(shaped));
    }
    Answered findings = Answered::array();
    for (const Finding& finding : judged.findings) {
        Answered shaped = {{"rule", finding.flag.rule}, {"step", finding.step}};
        shaped["text"] = basis.rules.sentence(finding.flag);
        shaped["source"] = basis.rules.source(finding.flag.rule);
        findings.push_back(std::move(shaped));
    }
    Answered answer = {{"steps", std::move(steps)},
                       {"findings", std::move(findings)},
                       {"keeps_the_cap", judged.keeps_the_cap}};
    add_overrides(answer, basis);
    return answer;
}

Result<Answered> supply(const Basis& basis) {
    if (!basis.given.supply) return needs("supply");
    auto plans = plans_of(basis);
    if (!plans) return plans.faults();
    const SupplyAsked& asked = *basis.given.supply;
    SupplyInput input;
    input.doses = doses_of(*plans, asked.from, PieceWeights::from(basis.rules), asked.on_hand);
    input.from = asked.from;
    input.to = asked.to;
    input.days_per_fill = asked.days_per_fill;
    input.reserve_days = asked.reserve_days;
    input.on_hand = asked.on_hand;
    input.limits = SupplyLimits::from(basis.rules);
    input.prices = basis.given.prices;
    auto made = supply_for(input);
    if (!made) return made.faults();
    Answered fills = Answered::array();
    for (const Fill& fill : made->fills) fills.push_back(fill_of(fill, basis.rules));
    Answered answer = {{"fills", std::move(fills)}};
    answer["runs_out"] = made->runs_out ? day(*made->runs_out) : Answered(nullptr);
    answer["surplus_to_return"] = left_over(made->surplus);
    return answer;
}

}  // namespace evenfall::answers
