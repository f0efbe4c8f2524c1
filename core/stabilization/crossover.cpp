// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "kinetics/steady.h"
#include "planning/pieces.h"
#include "stabilization/proposals.h"
#include "units/dose_text.h"

namespace evenfall::stabilization {

namespace {

/// The longer-acting agent that guidance names for a change of agent.
constexpr const char* kTarget = "diazepam";

/// The makeable amount nearest to the usual equivalent of `amount`; the smaller where two are as near.
std::optional<Dose> replacement(Dose amount, const Drug& from, const PieceTable& table) {
    const Dose wish = as_diazepam(amount, *from.equivalence).usual;
    const auto [below, above] = table.nearest(wish);
    const auto low = below && !below->is_zero() ? below : std::nullopt;
    if (!low) return above;
    if (!above) return low;
    return wish - *low <= *above - wish ? low : above;
}

/// The dose times of the agent in the order in which they are replaced: the evening first, then from the
/// morning on.
std::vector<DoseTime> order_of_stages(const Regimen& regimen, const std::string& drug, ClockTime begins) {
    std::vector<DoseTime> doses;
    for (const DoseTime& each : regimen.doses)
        if (each.drug == drug) doses.push_back(each);
    std::sort(doses.begin(), doses.end(), [&](const DoseTime& a, const DoseTime& b) {
        return minutes_into_day(a.at, begins) < minutes_into_day(b.at, begins);
    });
    if (doses.size() > 1) std::rotate(doses.begin(), doses.end() - 1, doses.end());
    return doses;
}

Regimen replaced(Regimen regimen, const DoseTime& old, Dose amount) {
    regimen.doses.erase(std::find(regimen.doses.begin(), regimen.doses.end(), old));
    const auto same = std::find_if(regimen.doses.begin(), regimen.doses.end(), [&](const DoseTime& each) {
        return each.drug == kTarget && each.at == old.at;
    });
    if (same != regimen.doses.end())
        same->amount += amount;
    else
        regimen.doses.push_back({old.at, kTarget, amount, "", ""});
    std::sort(regimen.doses.begin(), regimen.doses.end());
    return regimen;
}

std::vector<std::vector<Piece>> pieces_of(const Regimen& regimen, const PieceTable& table) {
    std::vector<Dose> amounts;
    for (const DoseTime& each : regimen.doses)
        if (each.drug == kTarget) amounts.push_back(each.amount);
    return table.day_pieces(amounts).value_or(std::vector<std::vector<Piece>>{});
}

/// The modelled 24 h average at the end of each stage, percent of today's, from today's steady state.
std::vector<double> stage_averages(const Today& today, const std::vector<AgentModel>& agents,
                                   const std::vector<Regimen>& stages, int days) {
    std::vector<double> sums(stages.size(), 0.0);
    for (const AgentModel& agent : agents) {
        std::vector<kinetics::TimedDose> doses;
        for (std::size_t i = 0; i < stages.size(); ++i) {
            const auto stage = kinetics::repeated(kinetics::daily_doses(stages[i], agent.model.drug()), days,
                                                  24.0 * days * static_cast<double>(i));
            doses.insert(doses.end(), stage.begin(), stage.end());
        }
        const auto start =
            kinetics::steady_start(agent.model, kinetics::daily_doses(today.regimen, agent.model.drug()));
        const double stage_h = 24.0 * days;
        const auto averages =
            kinetics::relative_averages(agent.model, start, doses, {stage_h, stage_h, stages.size()});
        for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += agent.factor * averages[i];
    }
    return sums;
}

void add_cautions(const Context& context, const Drug& drug, Proposal& proposal) {
    for (const char* risk : {"older age", "weak liver", "breathing trouble"}) {
        const auto answer = context.input.risks.answers.find(risk);
        if (answer == context.input.risks.answers.end() || answer->second != Answer::yes) continue;
        proposal.says.push_back({"crossover-against", {{"risk", risk}, {"drug", drug.name}}, {}});
    }
}

/// Today's agents and the new one in diazepam-equivalent, whatever the diary's own unit is.
std::vector<AgentModel> in_diazepam(const Context& context, const Regimen& today) {
    std::map<std::string, double> factors;
    std::vector<std::string> not_modelled;
    auto names = agents_of(today);
    names.emplace_back(kTarget);
    for (const std::string& name : names) {
        const Drug* drug = context.formulary.find(name);
        if (drug != nullptr && drug->equivalence) factors[name] = 10 / drug->equivalence->usual.mg();
    }
    return models_of(context.formulary, factors, not_modelled);
}

}  // namespace

std::optional<Proposal> crossover(const Context& context, const Today& today, const Drug& drug) {
    const Drug* target = context.formulary.find(kTarget);
    if (target == nullptr || drug.name == kTarget || drug.hypnotic || !drug.equivalence) return std::nullopt;
    if (slowest_half_life_h(drug.kinetics) >= slowest_half_life_h(target->kinetics)) return std::nullopt;
    bool listed = false;
    const auto products = usable_products(context, *target, listed);
    const Dose total = daily_amount(today.regimen, drug.name);
    const Dose most = as_diazepam(total, *drug.equivalence).most + daily_amount(today.regimen, kTarget);
    const PieceTable table(products, kTarget, PieceWeights::from(context.rules), most);

    const int days = context.rules.whole("crossover-stage", "days");
    std::vector<Regimen> stages;
    for (const DoseTime& old : order_of_stages(today.regimen, drug.name, context.begins)) {
        const auto amount = replacement(old.amount, drug, table);
        if (!amount) return std::nullopt;
        stages.push_back(replaced(stages.empty() ? today.regimen : stages.back(), old, *amount));
    }
    const auto agents = in_diazepam(context, today.regimen);
    const double reference = steady_average(agents, today.regimen);
    if (stages.empty() || reference <= 0) return std::nullopt;
    const auto averages = stage_averages(today, agents, stages, days);

    Proposal proposal;
    proposal.kind = ProposalKind::crossover;
    proposal.drug = kTarget;
    proposal.today = steady_shape(agents, today.regimen, reference, context.rules);
    proposal.proposed = steady_shape(agents, stages.back(), reference, context.rules);
    for (std::size_t i = 0; i < stages.size(); ++i)
        proposal.stages.push_back({static_cast<int>(i) * days,
                                   planned(stages[i], kTarget, pieces_of(stages[i], table)),
                                   100 * averages[i] / reference});
    proposal.doses = proposal.stages.back().doses;
    const DiazepamRange range = as_diazepam(total, *drug.equivalence);
    proposal.says.push_back({"proposal-crossover",
                             {{"drug", drug.name},
                              {"amount", print_dose(total)},
                              {"new_amount", print_dose(daily_amount(stages.back(), kTarget))},
                              {"usual", print_dose(range.usual)},
                              {"least", print_dose(range.least)},
                              {"most", print_dose(range.most)},
                              {"stages", std::to_string(stages.size())}},
                             {}});
    add_cautions(context, drug, proposal);
    if (listed) proposal.says.push_back({"proposal-listed-products", {{"drug", kTarget}}, {}});
    return proposal;
}

}  // namespace evenfall::stabilization
