// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "exchange/answers.h"
#include "response/response.h"
#include "rules/texts.h"

namespace evenfall::answers {
namespace {

Result<std::vector<ScaleScore>> scored(const Case& given) {
    if (given.scales.empty()) return std::vector<ScaleScore>{};
    const auto known = load_scales(resources_folder() / "scales.json");
    if (!known) return known.faults();
    return score_all(given.scales, *known);
}

/// The steps of a computed plan as what was in force from each day on; agents that it does not reduce go on.
std::vector<DatedRegimen> taken_by_plan(const Plan& plan) {
    std::vector<DatedRegimen> taken;
    for (const Step& step : plan.steps) {
        DatedRegimen each{step.starts, {}};
        for (const DoseTime& dose : plan.start.doses)
            if (dose.drug != plan.request.drug) each.regimen.doses.push_back(dose);
        for (const PlannedDose& dose : step.doses)
            each.regimen.doses.push_back({dose.at, dose.drug, dose.amount, "", ""});
        taken.push_back(std::move(each));
    }
    return taken;
}

Result<ResponseInput> input_of(const Basis& basis) {
    const Case& given = basis.given;
    if (!given.diary && given.checkins.empty() && given.scales.empty()) return needs("diary");
    ResponseInput input;
    Faults faults;
    take(scored(given), input.scales, faults);
    input.taken = given.schedule;
    if (given.regimen) {
        input.before = *given.regimen;
    } else if (!input.taken.empty()) {
        input.before = input.taken.front().regimen;
        input.taken.erase(input.taken.begin());
    }
    if (given.plan && given.schedule.empty()) {
        Plan plan;
        if (take(plan_of(basis), plan, faults)) input.taken = taken_by_plan(plan);
    }
    if (!faults.empty()) return faults;
    if (given.diary) input.diary = *given.diary;
    input.checkins = given.checkins;
    input.baseline = given.baseline;
    input.cap = basis.rules.percent("cut-over-cap", "percent");
    input.target = input.cap;
    if (given.plan) {
        input.cap = given.plan->cap;
        input.target = given.plan->target;
        input.days_per_step = given.plan->days_per_step;
    }
    input.as_of = given.as_of;
    return input;
}

/// Points to a hundredth: more would be false precision.
double points(double value) {
    const double rounded = std::round(value * 100) / 100;
    return rounded == 0 ? 0 : rounded;
}

/// A flag with the entries that raised it, where it has any.
Answered with_entries(const Flag& each, const Rules& rules) {
    Answered shaped = flag(each, rules);
    if (!each.entries.empty()) shaped["entries"] = each.entries;
    return shaped;
}

Answered all_with_entries(const std::vector<Flag>& all, const Rules& rules) {
    Answered list = Answered::array();
    for (const Flag& each : all) list.push_back(with_entries(each, rules));
    return list;
}

Answered suggestion_of(const Suggestion& suggestion, const Rules& rules) {
    return {{"act", word(suggestion.act)},
            {"urgency", word(suggestion.urgency)},
            {"because", all_with_entries(suggestion.because, rules)}};
}

Answered step_of(const StepResponse& step, const Rules& rules) {
    const auto number = [&](double response::Rise::*part) {
        return step.rise ? Answered(points(step.rise.value().*part)) : Answered(nullptr);
    };
    Answered items = Answered::object();
    if (step.rise)
        for (const auto& [item, by] : step.rise->items) items[item] = points(by);
    Answered shaped = {{"number", step.number},
                       {"starts", day(step.starts)},
                       {"percent_of_last", percent(step.cut)},
                       {"rise", number(&response::Rise::rise)},
                       {"days", step.days},
                       {"told_apart", word(step.told_apart)},
                       {"before", number(&response::Rise::before)},
                       {"spread", number(&response::Rise::spread)},
                       {"latest", number(&response::Rise::latest)},
                       {"peak", number(&response::Rise::peak)},
                       {"clear", step.rise ? Answered(step.clear) : Answered(nullptr)},
                       {"settled", step.rise ? Answered(step.settled) : Answered(nullptr)},
                       {"lag_days", step.lag_days},
                       {"rated_days_before", step.rise ? step.rise->days_before : 0},
                       {"rated_days_after", step.rise ? step.rise->days_after : 0}};
    shaped["items"] = std::move(items);
    shaped["because"] = all_with_entries(step.says, rules);
    return shaped;
}

Answered sensitivity_of(const Sensitivity& sensitivity, const Rules& rules) {
    Answered estimate = nullptr;
    if (sensitivity.estimate)
        estimate = {{"low", points(sensitivity.estimate->low)},
                    {"middle", points(sensitivity.estimate->middle)},
                    {"high", points(sensitivity.estimate->high)}};
    Answered shaped = {
        {"steps", sensitivity.steps},
        {"rise_per_10_percent", std::move(estimate)},
        {"interval_percent", std::lround(100 * kSensitivityLevel)},
        {"proposed_target_percent",
         sensitivity.proposed_target ? percent(*sensitivity.proposed_target) : Answered(nullptr)}};
    shaped["because"] = all_with_entries(sensitivity.says, rules);
    return shaped;
}

}  // namespace

Result<Answered> response(const Basis& basis) {
    const auto input = input_of(basis);
    if (!input) return input.faults();
    const ResponseView view = assess_response(*input, basis.formulary, basis.rules);
    Answered suggestions = Answered::array();
    for (const Suggestion& each : view.suggestions) suggestions.push_back(suggestion_of(each, basis.rules));
    Answered steps = Answered::array();
    for (const StepResponse& each : view.steps) steps.push_back(step_of(each, basis.rules));
    Answered answer;
    answer["suggestions"] = std::move(suggestions);
    answer["steps"] = std::move(steps);
    answer["sensitivity"] = sensitivity_of(view.sensitivity, basis.rules);
    answer["decision"] = all_with_entries(view.decision, basis.rules);
    Answered baseline = Answered::object();
    for (const auto& [item, severity] : view.baseline) baseline[item] = points(severity);
    answer["baseline"] = {{"from", view.baseline_found ? "ratings before the first step" : "given"}};
    answer["baseline"]["items"] = std::move(baseline);
    add_overrides(answer, basis);
    return answer;
}

Result<Answered> scales(const Basis& basis) {
    if (basis.given.scales.empty()) return needs("scales");
    const auto scores = scored(basis.given);
    if (!scores) return scores.faults();
    Answered list = Answered::array();
    for (const ScaleScore& score : *scores) {
        Answered shaped = {{"scale", score.scale},
                           {"on", day(score.on)},
                           {"total", score.total ? Answered(*score.total) : Answered(nullptr)},
                           {"band", score.band ? Answered(*score.band) : Answered(nullptr)}};
        shaped["flags"] = flags(score.flags, basis.rules);
        list.push_back(std::move(shaped));
    }
    Answered answer;
    answer["scales"] = std::move(list);
    return answer;
}

}  // namespace evenfall::answers
