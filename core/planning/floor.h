// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "formulary/drug.h"
#include "planning/path.h"
#include "planning/taper_ground.h"

namespace evenfall {

/// Whether a product may be offered to move the floor of an agent: it is of that agent, not held already, and
/// taken by a route that the products held use (swallowed always; under the tongue only beside another such;
/// never a spray, never an extended release).
bool may_move_floor(const Product& product, const std::string& drug, const std::vector<Product>& held);

/// The products that an agent's formulary lists for steps and that may move its floor.
std::vector<Product> floor_candidates(const Drug& drug, const std::vector<Product>& held);

}  // namespace evenfall

namespace evenfall::planning {

/// Says where the cap can no longer be kept, and which of the input's candidates would move that point, the
/// furthest first (at most as many as rule `floor-would-move` says).
void find_floor(Plan& plan, const TaperInput& input, const Ground& ground, const PathQuery& query,
                const Path& path, const Rules& rules, const std::stop_token& stop);

}  // namespace evenfall::planning
