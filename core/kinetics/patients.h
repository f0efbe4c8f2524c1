// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <utility>
#include <vector>

#include "kinetics/arrivals.h"
#include "kinetics/draws.h"
#include "kinetics/ensemble.h"

namespace evenfall::kinetics {

/// Virtual patients that are propagated side by side.
inline constexpr std::size_t kBlock = 64;
using Lane = std::array<double, kBlock>;

/// One agent in a block of virtual patients, as a structure of arrays: a lane holds one number of each
/// patient.
struct Block {
    std::array<Lane, kMostStates * kMostStates> matrix{};  ///< cell (row, column) at row × places + column
    std::array<Lane, kMostStates> state{};
    std::array<Lane, kMostStates> weight{};  ///< of each place in the level that is read
    std::vector<Lane> responses;             ///< to 1 mg, for each distinct remainder, each place
};

/// One agent in all virtual patients: the doses are common, the constants are each patient's own.
struct AgentPatients {
    Chain shape;                                    ///< size and exchange; the same in every patient
    std::vector<std::pair<Arrival, int>> arrivals;  ///< with the remainder's number, -1 for none
    std::vector<double> remainders;                 ///< the distinct ones, in hours
    std::vector<Block> blocks;
};

/// Draws the constants of one virtual patient.
Kinetics drawn(const Kinetics& kinetics, double absorption_factor, Draws& draws);

/// The doses of an agent on the request's grid, and room for the patients. REQUIRES a model that can be made.
AgentPatients without_patients(const EnsembleRequest& request, const EnsembleAgent& agent);

/// Puts one virtual patient in its place.
void place_patient(const EnsembleRequest& request, const EnsembleAgent& agent, std::size_t patient,
                   Draws& draws, AgentPatients& all);

}  // namespace evenfall::kinetics
