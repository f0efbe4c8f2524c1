// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/arrivals.h"

#include <algorithm>
#include <cmath>

namespace evenfall::kinetics {
namespace {

constexpr double kSameInstantH = 1e-8;

/// Doses are taken at whole seconds; a remainder that is one but for rounding is made it, so that equal
/// remainders are equal numbers.
double snapped(double remainder_h) {
    const double seconds = remainder_h * 3600, whole = std::round(seconds);
    return std::abs(seconds - whole) < 1e-6 ? whole / 3600 : remainder_h;
}

/// The first instant of the grid at or after `time`, beyond the grid where it is later than all.
std::size_t index_of(const Grid& grid, double time_h) {
    const double steps = (time_h - kSameInstantH - grid.first_h) / grid.step_h;
    return steps <= 0 ? 0 : static_cast<std::size_t>(std::min(std::ceil(steps), 1e15));
}

}  // namespace

std::vector<Arrival> arrivals(const Model& model, const Start& start, const std::vector<TimedDose>& doses,
                              const Grid& grid) {
    std::vector<Arrival> result;
    result.reserve(doses.size() + start.pending.size());
    const auto add = [&](const TimedDose& dose) {
        const double arrives = dose.time_h + model.lag_h();
        if (arrives < start.time_h - kSameInstantH) return;
        const std::size_t index = index_of(grid, arrives);
        if (index >= grid.count) return;
        const double remainder = std::max(0.0, grid.at(index) - arrives);
        result.push_back({index, snapped(remainder), dose.mg * model.bioavailability()});
    };
    for (const TimedDose& dose : start.pending) add(dose);
    for (const TimedDose& dose : doses) add(dose);
    if (!std::is_sorted(result.begin(), result.end())) std::sort(result.begin(), result.end());
    return result;
}

const State& DepotResponse::after(double hours) {
    auto at = std::lower_bound(known_.begin(), known_.end(), hours,
                               [](const auto& entry, double value) { return entry.first < value; });
    if (at == known_.end() || at->first != hours) {
        const Matrix m = transition(chain_, hours);
        State column{};
        for (std::size_t i = 0; i < chain_.size; ++i) column[i] = m.at(i, 0);
        at = known_.insert(at, {hours, column});
    }
    return at->second;
}

}  // namespace evenfall::kinetics
