// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/proposals.h"

#include <algorithm>

namespace evenfall::stabilization {

namespace {

Today today_of(const Context& context, const Dosing& dosing) {
    Today today;
    const Regimen* regimen = regimen_on(dosing.held_against, day_of(context.input.as_of));
    if (regimen == nullptr) return today;
    today.regimen = *regimen;
    std::vector<std::string> not_modelled;
    today.agents = models_of(context.formulary, dosing.factor, not_modelled);
    today.average = steady_average(today.agents, *regimen);
    today.shape = steady_shape(today.agents, *regimen, today.average, context.rules);
    return today;
}

/// Symptoms between doses are shown, or the level falls low today and no spacing lifts it enough.
bool crossing_is_worth_a_look(const Context& context, const Today& today, const std::vector<Proposal>& spaced,
                              const BetweenDose& symptoms) {
    if (symptoms.answer == BetweenDoseAnswer::shown) return true;
    const double low = context.rules.number("crossover-when", "trough_percent");
    return today.shape.trough < low && (spaced.empty() || spaced.front().proposed.trough < low);
}

const char* reason_of_use(Use use) {
    switch (use) {
        case Use::night_only:
            return "proposal-night-only";
        case Use::as_needed:
            return "proposal-as-needed";
        default:
            return "proposal-unknown-use";
    }
}

}  // namespace

Proposals propose(const Context& context, const Dosing& dosing, const BetweenDose& symptoms) {
    Proposals result;
    if (context.input.diary.use != Use::scheduled) {
        result.none.push_back({reason_of_use(context.input.diary.use), {}, {}});
        return result;
    }
    const Today today = today_of(context, dosing);
    for (const std::string& name : agents_of(today.regimen)) {
        const Drug* drug = context.formulary.find(name);
        if (drug == nullptr) continue;
        auto spaced = spacings(context, today, *drug, result.none);
        const bool cross = crossing_is_worth_a_look(context, today, spaced, symptoms);
        std::move(spaced.begin(), spaced.end(), std::back_inserter(result.proposals));
        if (!cross) continue;
        if (auto crossed = crossover(context, today, *drug)) result.proposals.push_back(std::move(*crossed));
    }
    return result;
}

}  // namespace evenfall::stabilization
