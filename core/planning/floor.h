// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "formulary/drug.h"
#include "planning/path.h"
#include "planning/taper_ground.h"

namespace evenfall {

/// The products of an agent that may be offered to move the floor: those that its formulary lists for steps,
/// by a route that the person's products use already (swallowed; under the tongue only beside another such;
/// never a spray, never an extended release), and not held already.
std::vector<Product> floor_candidates(const Drug& drug, const std::vector<Product>& held);

}  // namespace evenfall

namespace evenfall::planning {

/// Says where the cap can no longer be kept, and which of the input's candidates would move that point, the
/// furthest first (at most as many as rule `floor-would-move` says).
void find_floor(Plan& plan, const TaperInput& input, const Ground& ground, const PathQuery& query,
                const Path& path, const Rules& rules, const std::stop_token& stop);

}  // namespace evenfall::planning
