// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/day_levels.h"

namespace evenfall::stabilization {

/// What is proposed, or why nothing is.
struct Proposals {
    std::vector<Proposal> proposals;
    std::vector<Flag> none;
};

/// What a proposal starts from.
struct Today {
    Regimen regimen;  ///< in force at the as-of time, or the one found
    std::vector<AgentModel> agents;
    double average = 0;  ///< of the regimen at steady state, in the diary's unit
    LevelShape shape;
};

/// The same daily amount over more dose times, for each agent of scheduled use; and a staged crossover where
/// spacing does not help or symptoms between doses are shown.
Proposals propose(const Context& context, const Dosing& dosing, const BetweenDose& symptoms);

/// The products that an agent's pieces may be made of: those on hand that are not modified-release; where
/// none is on hand, the formulary's, and `listed` is set.
std::vector<Product> usable_products(const Context& context, const Drug& drug, bool& listed);

/// Spacings of one agent, best trough first; reasons against go to `none`.
std::vector<Proposal> spacings(const Context& context, const Today& today, const Drug& drug,
                               std::vector<Flag>& none);

/// A staged crossover of one agent to the usual longer-acting one: nothing where that makes no sense or no
/// pieces.
std::optional<Proposal> crossover(const Context& context, const Today& today, const Drug& drug);

/// The doses of a regimen with pieces where they are known.
std::vector<PlannedDose> planned(const Regimen& regimen, const std::string& drug,
                                 const std::vector<std::vector<Piece>>& pieces);

}  // namespace evenfall::stabilization
