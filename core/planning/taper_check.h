// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "planning/taper.h"

namespace evenfall::planning {

/// The dose times of a request's drug in a regimen, in order of the clock.
std::vector<DoseTime> dose_times_of(const Regimen& regimen, const std::string& drug);

/// Every fault of the request and the regimen by themselves, before any piece is looked at.
Faults check_request(const PlanRequest& request, const TaperInput& input);

/// Every fault of the products: none, too many, no common grid, a start, end or last dose that cannot be
/// made.
Faults check_products(const PlanRequest& request, const TaperInput& input, const PieceTable& table);

}  // namespace evenfall::planning
