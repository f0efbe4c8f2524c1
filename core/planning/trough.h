// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace evenfall::planning {

/// The lowest level of the day, just before a dose, as a share of the day's average: one compartment at
/// steady state, every dose absorbed at once. 1 is a level without any swing; 0 where nothing is taken.
/// `hours` are the clock times of the amounts, in hours; amounts of zero are no doses. REQUIRES half_life_h >
/// 0 and as many hours as amounts.
///
/// It ranks dose times against one another and is shown nowhere: what a person sees comes from the full
/// model.
double trough_share(std::span<const std::int32_t> amounts, const std::vector<double>& hours,
                    double half_life_h);

}  // namespace evenfall::planning
