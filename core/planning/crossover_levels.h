// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "planning/crossover.h"

namespace evenfall::planning {

/// At which end of the published ranges a crossover is judged (maths: Crossover): the fast end of every
/// half-life with both agents' tables at the least diazepam, which is the dip; or the slow end with both at
/// the most, which is the overshoot.
enum class JudgedAt { least_and_fast, most_and_slow };

/// The modelled average of each civil day in % of the average before, from the first stage's day until five
/// half-lives (of the slowest active species, at that end) after the last stage began. Days have 24 hours.
/// The old agent counts by its usual equivalence, as the average before does; the new agent's doses count as
/// if the conversion had been the one at that end. Faults: those of `kinetics::Model::make`.
Result<std::vector<double>> day_averages(const CrossoverInput& input,
                                         const std::vector<CrossoverStage>& stages,
                                         const Formulary& formulary, JudgedAt end);

/// Five half-lives of the slowest active species of both agents at the middle values, in whole days.
int days_to_steady(const CrossoverInput& input, const Formulary& formulary);

}  // namespace evenfall::planning
