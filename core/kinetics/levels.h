// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "kinetics/doses.h"
#include "kinetics/model.h"

namespace evenfall::kinetics {

/// Instants first_h + i × step_h for i in 0 … count - 1. REQUIRES step_h > 0.
struct Grid {
    double first_h = 0;
    double step_h = 1;
    std::size_t count = 0;

    double at(std::size_t i) const { return first_h + static_cast<double>(i) * step_h; }
    bool operator==(const Grid&) const = default;
};

/// Where a computation begins: the state at `time_h`, before a dose that arrives at that very instant, and
/// the doses taken earlier that have not reached the depot yet (lag).
struct Start {
    double time_h = 0;
    State state{};
    std::vector<TimedDose> pending;

    bool operator==(const Start&) const = default;
};

/// Amounts in mg of parent-equivalent, one column for each name, one value for each instant of the grid. A
/// value at the instant of a dose is after the dose.
struct Levels {
    Grid grid;
    std::vector<std::string> columns;
    std::vector<std::vector<double>> values;

    bool operator==(const Levels&) const = default;
};

/// The amounts on the grid, exact for any step. Doses may come in any order, at any times, several at one
/// instant; one that reached the depot before `start.time_h` is in the state already and is left out. O(1)
/// per instant, and the same result for any order of the doses. REQUIRES grid.first_h >= start.time_h and
/// finite times and amounts.
Levels levels(const Model& model, const Start& start, const std::vector<TimedDose>& doses, const Grid& grid);
/// The same into `result`, whose storage is used again.
void levels(const Model& model, const Start& start, const std::vector<TimedDose>& doses, const Grid& grid,
            Levels& result);

/// The state at one instant, after the doses of that instant. REQUIRES time_h >= start.time_h.
State state_at(const Model& model, const Start& start, const std::vector<TimedDose>& doses, double time_h);

/// The relative level (mg/day; constant dosing of R mg/day averages R at steady state) on the grid. Times
/// `diazepam_per_mg` it is the diazepam-equivalent level; those of several agents add.
std::vector<double> relative_levels(const Model& model, const Start& start,
                                    const std::vector<TimedDose>& doses, const Grid& grid);
std::vector<double> relative_levels(const Model& model, const Levels& amounts);

/// The average relative level over the 24 hours that end at each instant, or over the hours since
/// `start.time_h` where those are fewer; at the start itself its level. Exact (the area is a place of the
/// chain, not a sum).
std::vector<double> relative_averages(const Model& model, const Start& start,
                                      const std::vector<TimedDose>& doses, const Grid& grid);

}  // namespace evenfall::kinetics
