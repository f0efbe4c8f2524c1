// SPDX-License-Identifier: GPL-3.0-or-later
#include <random>

#include <benchmark/benchmark.h>

#include "bench/ratios.h"
#include "planning/planning_fixture.h"
#include "planning/solver_reference.h"

// The pieces of a day with two dose times out of two tablet strengths and a liquid: the planner's table
// beside a general integer-programming solver on the same weights. Both answer the same days; the table is
// laid once for them, as a plan does.

namespace evenfall {
namespace {

const std::vector<Product> kProducts{
    {"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}},
    {"clonazepam", Form::tablet, Dose::micrograms(2000), Cuts::halves, {}},
    {"clonazepam", Form::oral_solution, Dose::micrograms(100), Cuts::whole, Volume::nanolitres(250'000)}};

std::vector<std::vector<Dose>> some_days() {
    std::mt19937 random(1);
    std::vector<std::vector<Dose>> days;
    for (int i = 0; i < 64; ++i)
        days.push_back({Dose::micrograms(25) * static_cast<std::int64_t>(random() % 160),
                        Dose::micrograms(25) * static_cast<std::int64_t>(random() % 160)});
    return days;
}

void pieces_by_table(benchmark::State& state) {
    const auto days = some_days();
    const PieceTable table(kProducts, "clonazepam", PieceWeights(), Dose::milligrams(4));
    std::size_t day = 0;
    for (auto _ : state) benchmark::DoNotOptimize(table.day_pieces(days[day++ % days.size()]));
}
BENCHMARK(pieces_by_table)->Unit(benchmark::kMicrosecond);

void pieces_by_solver(benchmark::State& state) {
    const auto days = some_days();
    std::size_t day = 0;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            reference::least_burden(kProducts, days[day++ % days.size()], PieceWeights()));
}
BENCHMARK(pieces_by_solver)->Unit(benchmark::kMicrosecond);

void pieces_table_laid_and_asked_once(benchmark::State& state) {
    const auto days = some_days();
    std::size_t day = 0;
    for (auto _ : state) {
        const PieceTable table(kProducts, "clonazepam", PieceWeights(), Dose::milligrams(4));
        benchmark::DoNotOptimize(table.day_pieces(days[day++ % days.size()]));
    }
}
BENCHMARK(pieces_table_laid_and_asked_once)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace evenfall

int main(int argc, char** argv) {
    return evenfall::bench::run_with_ratios(
        argc, argv,
        {{"pieces_by_solver", "pieces_by_table", "at least 300"},
         {"pieces_by_solver", "pieces_table_laid_and_asked_once", "a table for one day only"}});
}
