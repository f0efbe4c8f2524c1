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
    /// What the end of a dose time weighs: this times how far it lowers the trough of the day (see
    /// trough.h), times the share of the amount before the taper that is taken then. 0: nothing.
    double end_weight = 0;
    double end_least = 0;       ///< of the trough, counted at least for every end
    std::int32_t before = 1;    ///< the daily total before the taper, in units
    std::vector<double> hours;  ///< by dose time: its clock time, in hours; empty where end_weight is 0
    double half_life_h = 0;     ///< of the agent; above 0 where end_weight is
    std::optional<std::size_t> ends_freely;  ///< the dose time that is to end first, by wish
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

/// The least-cost way down (maths: Taper): exact, by going backwards over every regimen of the shape. Falls
/// by which every dose time goes down (ShapeGrid::all_fall_beyond) are searched in a queue (FallQueue),
/// smaller ones pair by pair: n log n in the totals that can be reached, but for a dose time first, where
/// every pair is looked at. Nothing where the end cannot be reached, or where `stop` was asked for.
std::optional<Path> find_path(const ShapeGrid& shape, const PieceTable& pieces, const PathQuery& query,
                              const std::stop_token& stop);

/// The cost of one step in which no dose time ends. `changed` counts dose times.
double step_cost(const PathQuery& query, double ln_fall, int burden, int changed);

}  // namespace evenfall::planning
