// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "kinetics/model.h"
#include "stabilization/measures.h"

namespace evenfall::stabilization {

/// An agent that can be modelled, and what a mg/day of it counts in the diary's unit.
struct AgentModel {
    kinetics::Model model;
    double factor = 1;
};

/// The models of these agents; those that the formulary has no constants for are named in `not_modelled`.
std::vector<AgentModel> models_of(const Formulary& formulary, const std::map<std::string, double>& factors,
                                  std::vector<std::string>& not_modelled);

/// One day of a regimen at steady state: peak, trough and average as percent of `reference` (in the unit of
/// the factors).
LevelShape steady_shape(const std::vector<AgentModel>& agents, const Regimen& regimen, double reference,
                        const Rules& rules);
/// The average of a regimen at steady state in the unit of the factors.
double steady_average(const std::vector<AgentModel>& agents, const Regimen& regimen);

/// The modelled 24 hours, as taken and as intended. Unknown days are taken as intended, so that the level
/// does not fall for want of entries.
LevelBand level_band(const Context& context, const Dosing& dosing, const Measures& measures);

}  // namespace evenfall::stabilization
