// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/levels.h"

#include <cstring>

#include "kinetics/propagate.h"

namespace evenfall::kinetics {
namespace {

/// A weighted sum of the places at every instant.
std::vector<double> weighted(const Chain& chain, const State& weights, const Model& model, const Start& start,
                             const std::vector<TimedDose>& doses, const Grid& grid) {
    std::vector<double> result(grid.count);
    propagate(chain, model, start, doses, grid, [&]<std::size_t N>() {
        return [&](const Instants& now) {
            for (std::size_t n = 0; n < now.count; ++n)
                for (std::size_t i = 0; i < N; ++i) result[now.first + n] += weights[i] * now.values[i][n];
        };
    });
    return result;
}

/// The area under the relative level from the start to each instant.
std::vector<double> areas(const Model& model, Start start, const std::vector<TimedDose>& doses,
                          const Grid& grid) {
    if (grid.count == 0) return {};
    start.state[model.size()] = 0;
    State area_only{};
    area_only[model.size()] = 1;
    return weighted(model.with_area(), area_only, model, start, doses, grid);
}

/// The instants of `grid` a day earlier, without those before the start.
Grid day_before(const Grid& grid, double start_h) {
    std::size_t skipped = 0;
    while (skipped < grid.count && grid.at(skipped) - 24 < start_h) ++skipped;
    return {grid.at(skipped) - 24, grid.step_h, grid.count - skipped};
}

}  // namespace

Levels levels(const Model& model, const Start& start, const std::vector<TimedDose>& doses, const Grid& grid) {
    Levels result;
    levels(model, start, doses, grid, result);
    return result;
}

void levels(const Model& model, const Start& start, const std::vector<TimedDose>& doses, const Grid& grid,
            Levels& result) {
    result.grid = grid;
    result.columns = model.columns();
    result.values.resize(model.size());
    std::array<double*, kMostPlaces> columns{};
    for (std::size_t place = 0; place < model.size(); ++place) {
        result.values[place].resize(grid.count);
        columns[place] = result.values[place].data();
    }
    propagate(model.chain(), model, start, doses, grid, [&]<std::size_t N>() {
        return [columns](const Instants& now) {
            for (std::size_t i = 0; i < N; ++i) {
                double* out = columns[i] + now.first;
                if (now.count == kAtOnce)
                    std::memcpy(out, now.values[i].data(), sizeof now.values[i]);  // a fixed size: inlined
                else
                    *out = now.values[i][0];
            }
        };
    });
}

State state_at(const Model& model, const Start& start, const std::vector<TimedDose>& doses, double time_h) {
    State result{};
    propagate(model.chain(), model, start, doses, Grid{time_h, 1, 1}, [&]<std::size_t N>() {
        return [&](const Instants& now) {
            for (std::size_t i = 0; i < N; ++i) result[i] = now.values[i][0];
        };
    });
    return result;
}

std::vector<double> relative_levels(const Model& model, const Start& start,
                                    const std::vector<TimedDose>& doses, const Grid& grid) {
    return weighted(model.chain(), model.relative_weights(), model, start, doses, grid);
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
