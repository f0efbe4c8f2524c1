// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/patients.h"

#include <algorithm>

#include "kinetics/steady.h"

namespace evenfall::kinetics {
namespace {

Model model_of(const Kinetics& kinetics, const EnsembleAgent& agent) {
    return Model::make(kinetics, agent.drug).value();
}

Start start_of(const Model& model, const EnsembleRequest& request, const EnsembleAgent& agent) {
    return steady_start(model, agent.before, request.start_clock_h, request.start_h);
}

/// The milligrams that equal 10 mg of diazepam, drawn; nothing is drawn where the scale does not need it.
double drawn_diazepam(const EnsembleRequest& request, const EnsembleAgent& agent, Draws& draws) {
    if (request.scale != Scale::equivalent) return 1;
    const Equivalence& equivalence = *agent.equivalence;
    return 10 / draws.within(equivalence.usual.mg(), equivalence.most_diazepam.mg(),
                             equivalence.least_diazepam.mg());
}

void copy_cells(const Chain& chain, const Matrix& m, std::size_t lane, Block& block) {
    for (std::size_t i = 0; i < chain.size; ++i)
        for (std::size_t j = 0; j < chain.size; ++j) block.matrix[i * chain.size + j][lane] = m.at(i, j);
}

}  // namespace

Kinetics drawn(const Kinetics& kinetics, double absorption_factor, Draws& draws) {
    Kinetics result = kinetics;
    result.half_life_h =
        draws.within(kinetics.half_life_h, kinetics.half_life_low_h, kinetics.half_life_high_h);
    const double absorption = kinetics.absorption_half_life_h;
    result.absorption_half_life_h =
        draws.within(absorption, absorption / absorption_factor, absorption * absorption_factor);
    for (Metabolite& metabolite : result.metabolites)
        metabolite.half_life_h =
            draws.within(metabolite.half_life_h, metabolite.half_life_low_h, metabolite.half_life_high_h);
    return result;
}

AgentPatients without_patients(const EnsembleRequest& request, const EnsembleAgent& agent) {
    const Model model = model_of(agent.kinetics, agent);
    AgentPatients all;
    all.shape = model.chain();
    const auto events = arrivals(model, start_of(model, request, agent), agent.doses, request.grid);
    for (const Arrival& event : events)
        if (event.remainder_h > 0) all.remainders.push_back(event.remainder_h);
    std::sort(all.remainders.begin(), all.remainders.end());
    all.remainders.erase(std::unique(all.remainders.begin(), all.remainders.end()), all.remainders.end());
    for (const Arrival& event : events) {
        const auto at = std::lower_bound(all.remainders.begin(), all.remainders.end(), event.remainder_h);
        all.arrivals.emplace_back(event,
                                  event.remainder_h > 0 ? static_cast<int>(at - all.remainders.begin()) : -1);
    }
    all.blocks.resize((static_cast<std::size_t>(request.patients) + kBlock - 1) / kBlock);
    for (Block& block : all.blocks) block.responses.resize(all.remainders.size() * model.size());
    return all;
}

void place_patient(const EnsembleRequest& request, const EnsembleAgent& agent, std::size_t patient,
                   Draws& draws, AgentPatients& all) {
    const Model model = model_of(drawn(agent.kinetics, request.absorption_factor, draws), agent);
    const double diazepam = drawn_diazepam(request, agent, draws);
    const Chain& chain = model.chain();
    Block& block = all.blocks[patient / kBlock];
    const std::size_t lane = patient % kBlock;
    copy_cells(chain, transition(chain, request.grid.step_h), lane, block);
    State first{};
    if (!agent.before.empty()) {
        const Start start = start_of(model, request, agent);
        first = times(chain, transition(chain, request.grid.first_h - start.time_h), start.state);
    }
    for (std::size_t i = 0; i < chain.size; ++i) {
        block.state[i][lane] = first[i];
        block.weight[i][lane] = model.relative_weights()[i] * diazepam;
    }
    for (std::size_t r = 0; r < all.remainders.size(); ++r) {
        const Matrix m = transition(chain, all.remainders[r]);
        for (std::size_t i = 0; i < chain.size; ++i) block.responses[r * chain.size + i][lane] = m.at(i, 0);
    }
}

}  // namespace evenfall::kinetics
