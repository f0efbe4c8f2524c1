// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "planning/path.h"
#include "planning/taper.h"

namespace evenfall::planning {

/// What a way down is laid over: the agent's dose times, its products, and the shape on their grid.
struct Ground {
    std::vector<DoseTime> times;
    PieceTable table;
    std::optional<ShapeGrid> shape;
};

/// The ground of a request. No shape where the request is at fault, or where the products share no grid.
Ground lay_ground(const PlanRequest& request, const TaperInput& input, std::span<const Product> products,
                  const Rules& rules);

/// Amounts in units of the table's grid, and back. REQUIRES amounts on the grid.
Amounts amounts_in(const std::vector<DoseTime>& times, const PieceTable& table);
std::vector<Dose> doses_in(const Amounts& amounts, const PieceTable& table);

/// What is asked of the path from these amounts on.
PathQuery query_for(const PlanRequest& request, const TaperInput& input, Amounts from,
                    const PieceTable& table, const Rules& rules);

/// The doses of one step: the agent's that are left, with their pieces, and those of other agents as they
/// were.
std::vector<PlannedDose> planned_doses(const Ground& ground, const Regimen& start, const Amounts& amounts);

}  // namespace evenfall::planning
