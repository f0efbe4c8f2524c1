// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "kinetics/steady.h"
#include "planning/crossover_stages.h"
#include "stabilization/proposals.h"
#include "units/dose_text.h"

namespace evenfall::stabilization {

namespace {

/// The longer-acting agent that guidance names for a change of agent.
constexpr const char* kTarget = "diazepam";

/// What the planner lays stages from: the old agent's products on hand where they make its doses, and the new
/// agent's. Nothing where a dose time of the old agent stands twice.
std::optional<CrossoverInput> input_of(const Context& context, const Today& today, const Drug& drug,
                                       const std::vector<Product>& of_target) {
    CrossoverInput input;
    input.regimen = today.regimen;
    std::erase_if(input.regimen.doses, [](const DoseTime& dose) { return dose.amount.is_zero(); });
    input.from = drug.name;
    input.to = kTarget;
    input.start = day_of(context.input.as_of);
    input.products = of_target;
    input.risks = context.input.risks;
    std::set<ClockTime> times;
    for (const DoseTime& dose : input.regimen.doses)
        if (dose.drug == drug.name && !times.insert(dose.at).second) return std::nullopt;
    return input;
}

/// The planner's stages, whole dose times with the evening first; without pieces of the old agent where those
/// on hand do not make its doses.
std::vector<CrossoverStage> stages_of(const Context& context, CrossoverInput input, int days) {
    const auto lay = [&] {
        return planning::lay_stages(input, Portion::whole, days, context.formulary, context.rules);
    };
    const std::vector<Product> of_target = input.products;
    for (const Product& product : context.input.products)
        if (product.drug == input.from) input.products.push_back(product);
    auto laid = lay();
    if (!laid && input.products.size() > of_target.size()) {
        input.products = of_target;
        laid = lay();
    }
    return laid ? std::move(*laid) : std::vector<CrossoverStage>();
}

Regimen regimen_of(const CrossoverStage& stage) {
    Regimen regimen;
    for (const PlannedDose& dose : stage.doses)
        regimen.doses.push_back({dose.at, dose.drug, dose.amount, "", ""});
    std::sort(regimen.doses.begin(), regimen.doses.end());
    return regimen;
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
    const auto input = input_of(context, today, drug, usable_products(context, *target, listed));
    if (!input) return std::nullopt;
    const int days = context.rules.whole("crossover-stage", "days");
    const auto laid = stages_of(context, *input, days);
    const auto agents = in_diazepam(context, today.regimen);
    const double reference = steady_average(agents, today.regimen);
    if (laid.empty() || reference <= 0) return std::nullopt;
    std::vector<Regimen> stages;
    for (const CrossoverStage& stage : laid) stages.push_back(regimen_of(stage));
    const auto averages = stage_averages(today, agents, stages, days);

    Proposal proposal;
    proposal.kind = ProposalKind::crossover;
    proposal.drug = kTarget;
    proposal.today = steady_shape(agents, today.regimen, reference, context.rules);
    proposal.proposed = steady_shape(agents, stages.back(), reference, context.rules);
    for (std::size_t i = 0; i < laid.size(); ++i)
        proposal.stages.push_back({static_cast<int>((laid[i].starts - input->start).count()), laid[i].doses,
                                   100 * averages[i] / reference});
    proposal.doses = laid.back().doses;
    const Dose total = daily_amount(today.regimen, drug.name);
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
    for (const CrossoverStage& stage : laid)
        proposal.says.insert(proposal.says.end(), stage.flags.begin(), stage.flags.end());
    add_cautions(context, drug, proposal);
    if (listed) proposal.says.push_back({"proposal-listed-products", {{"drug", kTarget}}, {}});
    return proposal;
}

}  // namespace evenfall::stabilization
