// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>
#include <cmath>
#include <numbers>

#include <benchmark/benchmark.h>
#include <gsl/gsl_odeiv2.h>

#include "bench/ratios.h"
#include "kinetics/ensemble.h"
#include "kinetics/steady.h"

// Levels over 24 months and the spread over 1 000 virtual patients, each beside the least that the work can
// cost: the recursion written out in one loop, the structure-of-arrays kernel alone; and beside a general
// solver.

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

constexpr int kDays = 730;
constexpr double kAbsorption = 1.5;

Kinetics parent_and_metabolite() {
    Kinetics kinetics;
    kinetics.absorption_half_life_h = std::numbers::ln2 / kAbsorption;
    kinetics.half_life_h = 43;
    kinetics.half_life_low_h = 20;
    kinetics.half_life_high_h = 70;
    Metabolite metabolite;
    metabolite.name = "metabolite";
    metabolite.from = "drug";
    metabolite.half_life_h = 100;
    metabolite.half_life_low_h = 60;
    metabolite.half_life_high_h = 150;
    metabolite.relative_potency = 1;
    kinetics.metabolites = {metabolite};
    return kinetics;
}

std::vector<TimedDose> three_times_a_day() {
    return repeated({{8, 5}, {14, 5}, {22, 5}}, kDays);
}

const Grid kQuarterHours{0, 0.25, kDays * 96 + 1};

/// The cells of the transition matrix that are not zero, in the order of use.
struct Cells {
    double gut, parent_gut, parent, metabolite_gut, metabolite_parent, metabolite;
};

Cells cells_of(double hours) {
    const Matrix m = transition(Model::make(parent_and_metabolite(), "drug")->chain(), hours);
    return {m.at(0, 0), m.at(1, 0), m.at(1, 1), m.at(2, 0), m.at(2, 1), m.at(2, 2)};
}

void levels_of_24_months(benchmark::State& state) {
    const Model model = *Model::make(parent_and_metabolite(), "drug");
    const auto doses = three_times_a_day();
    Levels found;
    for (auto _ : state) {
        levels(model, {}, doses, kQuarterHours, found);
        benchmark::DoNotOptimize(found.values[2].data());
        benchmark::ClobberMemory();
    }
}

void bare_recursion(benchmark::State& state) {
    const Cells m = cells_of(kQuarterHours.step_h);
    const auto doses = three_times_a_day();
    std::array<std::vector<double>, 3> out;
    for (auto& column : out) column.resize(kQuarterHours.count);
    for (auto _ : state) {
        double gut = 0, parent = 0, metabolite = 0;
        std::size_t next = 0;
        for (std::size_t i = 0; i < kQuarterHours.count; ++i) {
            metabolite = m.metabolite_gut * gut + m.metabolite_parent * parent + m.metabolite * metabolite;
            parent = m.parent_gut * gut + m.parent * parent;
            gut = m.gut * gut;
            if (next < doses.size() && doses[next].time_h <= kQuarterHours.at(i)) gut += doses[next++].mg;
            out[0][i] = gut;
            out[1][i] = parent;
            out[2][i] = metabolite;
        }
        benchmark::DoNotOptimize(out[2].data());
        benchmark::ClobberMemory();
    }
}

int slope(double, const double x[], double d[], void*) {
    const double k = std::numbers::ln2 / 43, km = std::numbers::ln2 / 100;
    d[0] = -kAbsorption * x[0];
    d[1] = kAbsorption * x[0] - k * x[1];
    d[2] = k * x[1] - km * x[2];
    return 0;
}

void general_solver(benchmark::State& state) {
    const auto doses = three_times_a_day();
    gsl_odeiv2_system system{slope, nullptr, 3, nullptr};
    for (auto _ : state) {
        auto* driver = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 0.1, 1e-12, 1e-8);
        std::array<double, 3> x{};
        double now = 0;
        std::size_t next = 0;
        for (std::size_t i = 0; i < kQuarterHours.count; ++i) {
            if (i > 0) gsl_odeiv2_driver_apply(driver, &now, kQuarterHours.at(i), x.data());
            if (next >= doses.size() || doses[next].time_h > kQuarterHours.at(i)) continue;
            x[0] += doses[next++].mg;
            gsl_odeiv2_driver_reset(driver);
        }
        benchmark::DoNotOptimize(x);
        gsl_odeiv2_driver_free(driver);
    }
}

constexpr std::size_t kPatients = 1000, kLanes = 64, kBlocks = (kPatients + kLanes - 1) / kLanes;
constexpr std::size_t kHours = kDays * 24;

struct Lanes {
    std::array<std::array<double, kLanes>, 6> m;
    std::array<std::array<double, kLanes>, 3> x;
};

void bare_kernel(benchmark::State& state) {
    const Cells cells = cells_of(1);
    std::vector<Lanes> blocks(kBlocks);
    for (auto _ : state) {
        for (Lanes& block : blocks) {
            for (std::size_t p = 0; p < kLanes; ++p) {
                const std::array<double, 6> one{cells.gut,
                                                cells.parent_gut,
                                                cells.parent,
                                                cells.metabolite_gut,
                                                cells.metabolite_parent,
                                                cells.metabolite};
                for (std::size_t c = 0; c < one.size(); ++c) block.m[c][p] = one[c];
                for (auto& lane : block.x) lane[p] = 0;
            }
            for (std::size_t hour = 0; hour < kHours; ++hour) {
                const std::size_t clock = hour % 24;
                const double dose = clock == 8 || clock == 14 || clock == 22 ? 5 : 0;
                for (std::size_t p = 0; p < kLanes; ++p) {
                    const double gut = block.x[0][p], parent = block.x[1][p];
                    block.x[2][p] =
                        block.m[3][p] * gut + block.m[4][p] * parent + block.m[5][p] * block.x[2][p];
                    block.x[1][p] = block.m[1][p] * gut + block.m[2][p] * parent;
                    block.x[0][p] = block.m[0][p] * gut + dose;
                }
            }
        }
        benchmark::DoNotOptimize(blocks.data());
    }
}

EnsembleRequest virtual_patients(int patients, std::size_t read_every) {
    EnsembleRequest request;
    request.agents = {{"drug", parent_and_metabolite(), std::nullopt, {}, three_times_a_day()}};
    request.grid = {0, 1, kHours};
    request.patients = patients;
    request.read_every = read_every;
    return request;
}

void run(benchmark::State& state, int patients, std::size_t read_every) {
    const EnsembleRequest request = virtual_patients(patients, read_every);
    for (auto _ : state) benchmark::DoNotOptimize(run_ensemble(request));
}

}  // namespace

BENCHMARK(levels_of_24_months)->Unit(benchmark::kMillisecond);
BENCHMARK(bare_recursion)->Unit(benchmark::kMillisecond);
BENCHMARK(general_solver)->Unit(benchmark::kMillisecond);
BENCHMARK(bare_kernel)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(run, thousand_propagated, 1000, kHours)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(run, thousand_with_percentiles, 1000, 9)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(run, ten_thousand_with_percentiles, 10'000, 9)->Unit(benchmark::kMillisecond);

int main(int argc, char** argv) {
    return evenfall::bench::run_with_ratios(
        argc, argv,
        {{"levels_of_24_months", "bare_recursion", "at most 2"},
         {"general_solver", "levels_of_24_months", "at least 50"},
         {"run/thousand_propagated", "bare_kernel", "at most 3"},
         {"run/thousand_with_percentiles", "bare_kernel", "at most 10"},
         {"run/ten_thousand_with_percentiles", "run/thousand_with_percentiles", "about 10: linear"}});
}
