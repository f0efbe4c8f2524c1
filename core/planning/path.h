// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "planning/pieces.h"
#include "planning/shape.h"
#include "units/share.h"

namespace evenfall::planning {

/// What a way down is sought for.
struct PathQuery {
    Amounts from;                     ///< the regimen now, in units
    std::optional<std::int32_t> end;  ///< daily total at which it ends; empty: the least that can be reached
    Share target, cap;
    double burden_weight = 0;  ///< rule `path-weights`
    double dose_time_weight = 0;
    std::optional<Share> test_least;  ///< a first step of at least this much and at most the target
};

/// One step of a way down.
struct PathStep {
    Amounts amounts;
    bool over_cap = false;
    bool smallest = false;  ///< no smaller reduction could be made from the regimen before
};

struct Path {
    std::vector<PathStep> steps;
    bool test_found = true;  ///< a first step within the bounds could be made
    double cost = 0;
};

/// The least-cost way down (maths: Taper): exact, by going backwards over every regimen of the shape. Nothing
/// where the end cannot be reached, or where `stop` was asked for.
std::optional<Path> find_path(const ShapeGrid& shape, const PieceTable& pieces, const PathQuery& query,
                              const std::stop_token& stop);

/// The cost of one step. `changed` counts dose times.
double step_cost(const PathQuery& query, double ln_fall, int burden, int changed);

}  // namespace evenfall::planning
