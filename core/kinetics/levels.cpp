// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/levels.h"

#include <algorithm>

#include "kinetics/propagate.h"

namespace evenfall::kinetics {
namespace {

/// The area under the relative level from the start to each instant; 0 up to the start.
std::vector<double> areas(const Model& model, Start start, const std::vector<TimedDose>& doses,
                          const Grid& grid) {
    if (grid.count == 0) return {};
    start.state[model.size()] = 0;
    std::vector<double> result(grid.count);
    propagate(model.with_area(), model, start, doses, grid,
              [&](std::size_t i, const State& x) { result[i] = x[model.size()]; });
    return result;
}

/// The instants of `grid` a day earlier, without those before the start.
Grid day_before(const Grid& grid, double start_h) {
    std::size_t skipped = 0;
    while (skipped < grid.count && grid.at(skipped) - 24 < start_h) ++skipped;
    return {grid.at(skipped) - 24, grid.step_h, grid.count - skipped};
}

}  // namespace

Levels levels(const Model& model, const Start& start, const std::vector<TimedDose>& doses, const Grid& grid) {
    Levels result{grid, model.columns(), std::vector<std::vector<double>>(model.size())};
    std::array<double*, kMostPlaces> columns{};
    for (std::size_t place = 0; place < model.size(); ++place) {
        result.values[place].resize(grid.count);
        columns[place] = result.values[place].data();
    }
    const State first =
        times(model.chain(), transition(model.chain(), grid.first_h - start.time_h), start.state);
    const std::vector<Arrival> events = arrivals(model, start, doses, grid);
    with_size(model.chain(), [&]<std::size_t N, bool Exchanges>() {
        propagate_sized<N, Exchanges>(model.chain(), first, events, grid, [&](std::size_t i, const State& x) {
#pragma GCC unroll 8
            for (std::size_t place = 0; place < N; ++place) columns[place][i] = x[place];
        });
    });
    return result;
}

State state_at(const Model& model, const Start& start, const std::vector<TimedDose>& doses, double time_h) {
    State result{};
    propagate(model.chain(), model, start, doses, Grid{time_h, 1, 1},
              [&](std::size_t, const State& x) { result = x; });
    return result;
}

std::vector<double> relative_levels(const Model& model, const Start& start,
                                    const std::vector<TimedDose>& doses, const Grid& grid) {
    std::vector<double> result(grid.count);
    propagate(model.chain(), model, start, doses, grid,
              [&](std::size_t i, const State& x) { result[i] = relative_level(model, x); });
    return result;
}

std::vector<double> relative_levels(const Model& model, const Levels& amounts) {
    std::vector<double> result(amounts.grid.count);
    for (std::size_t place = 0; place < model.size(); ++place) {
        const double weight = model.relative_weights()[place];
        for (std::size_t i = 0; i < result.size(); ++i) result[i] += weight * amounts.values[place][i];
    }
    return result;
}

std::vector<double> relative_averages(const Model& model, const Start& start,
                                      const std::vector<TimedDose>& doses, const Grid& grid) {
    std::vector<double> result = areas(model, start, doses, grid);
    const Grid earlier = day_before(grid, start.time_h);
    const std::vector<double> left_out = areas(model, start, doses, earlier);
    const std::size_t skipped = grid.count - earlier.count;
    for (std::size_t i = skipped; i < result.size(); ++i)
        result[i] = (result[i] - left_out[i - skipped]) / 24;
    for (std::size_t i = 0; i < skipped; ++i) {
        const double hours = grid.at(i) - start.time_h;
        result[i] = hours > 0 ? result[i] / hours
                              : relative_level(model, state_at(model, start, doses, start.time_h));
    }
    return result;
}

}  // namespace evenfall::kinetics
