// SPDX-License-Identifier: GPL-3.0-or-later
#include <numeric>

#include <benchmark/benchmark.h>

#include "bench/ratios.h"
#include "planning/path_reference.h"
#include "planning/path_solver.h"
#include "planning/planning_fixture.h"

// A taper of 24 months over 10 mg tablets and a liquid at 0.05 mL from 40 mg in three dose times: aim under
// 50 ms. Beside it the same ways down over quarters of tablets, by the planner's graph and by the
// textbook's way (Bellman and Ford over every pair of regimens).

namespace evenfall {
namespace {

TaperInput three_dose_times(const std::string& each, std::vector<Product> products) {
    return {{{dose_at("08:00", "diazepam", each), dose_at("14:00", "diazepam", each),
              dose_at("22:00", "diazepam", each)}},
            std::move(products),
            {},
            0};
}

PlanRequest ten_percent() {
    PlanRequest request;
    request.drug = "diazepam";
    request.start = day_at(2027, 1, 4);
    return request;
}

void taper_over_a_liquid(benchmark::State& state) {
    TaperInput input =
        three_dose_times("13", {solid("diazepam", "10", Cuts::halves), solution("diazepam", "1", "0.05")});
    input.start.doses.back().amount = mg("14");
    PlanRequest request = ten_percent();
    request.days_per_step = 14;
    request.target = Share::percent(7);
    request.last_dose = mg("1");
    const Rules& rules = shipped_rules();
    std::size_t steps = 0, days = 0;
    for (auto _ : state) {
        const Plan plan = plan_taper(request, input, rules).value();
        steps = plan.steps.size();
        days = static_cast<std::size_t>((plan.steps.back().starts - plan.steps.front().starts).count());
    }
    state.counters["steps"] = static_cast<double>(steps);
    state.counters["days"] = static_cast<double>(days);
}
BENCHMARK(taper_over_a_liquid)->Unit(benchmark::kMillisecond);

planning::PathQuery three_times_twenty() {
    planning::PathQuery query;
    query.from = {20, 20, 20};
    query.target = query.cap = Share::percent(10);
    query.burden_weight = 0.0001;
    query.dose_time_weight = 10;
    return query;
}

// The reachable regimens of a graph over `start` units at each of three dose times, and the query.
struct Small {
    std::vector<Product> products{solid("diazepam", "2", Cuts::quarters)};
    PieceTable pieces{products, "diazepam", PieceWeights(), Dose::milligrams(20)};
    planning::PathQuery query = three_times_twenty();

    planning::ShapeGrid shape() const {
        planning::ShapeInput input{Shape::even, {}, 0, pieces.unit().ng(), std::vector<bool>(21, true)};
        for (const std::int32_t units : query.from) input.start_ng.push_back(units * pieces.unit().ng());
        return planning::ShapeGrid(std::move(input));
    }
};

void way_down_by_the_graph(benchmark::State& state) {
    const Small small;
    double cost = 0;
    for (auto _ : state) cost = planning::find_path(small.shape(), small.pieces, small.query, {})->cost;
    state.counters["cost"] = cost;
}
BENCHMARK(way_down_by_the_graph)->Unit(benchmark::kMillisecond);

std::int32_t total(const planning::Amounts& amounts) {
    return std::accumulate(amounts.begin(), amounts.end(), 0);
}

bool falls(const planning::Amounts& u, const planning::Amounts& v) {
    int changed = 0, ended = 0;
    for (std::size_t i = 0; i < u.size(); ++i) {
        if (v[i] > u[i]) return false;
        changed += v[i] != u[i];
        ended += v[i] == 0 && u[i] != 0;
    }
    return changed > 0 && (ended == 0 || changed == 1);
}

void way_down_by_the_textbook(benchmark::State& state) {
    const Small small;
    const planning::ShapeGrid shape = small.shape();
    double found = 0;
    for (auto _ : state) {
        std::vector<planning::Amounts> nodes{small.query.from};
        for (std::int32_t sum = total(small.query.from) - 1; sum > 0; --sum)
            for (const planning::Amounts& each : shape.regimens(sum)) nodes.push_back(each);
        struct Edge {
            std::size_t from, to;
            double cost;
        };
        std::vector<Edge> edges;
        for (std::size_t u = 0; u < nodes.size(); ++u) {
            std::int32_t nearest = 0;
            for (std::size_t v = u + 1; v < nodes.size(); ++v)
                if (falls(nodes[u], nodes[v])) nearest = std::max(nearest, total(nodes[v]));
            for (std::size_t v = u + 1; v < nodes.size(); ++v) {
                if (!falls(nodes[u], nodes[v])) continue;
                const Share cut = Share::of(total(nodes[u]) - total(nodes[v]), total(nodes[u]));
                if (cut > small.query.cap && total(nodes[v]) != nearest) continue;
                std::vector<Dose> day;
                int changed = 0;
                for (std::size_t i = 0; i < 3; ++i) {
                    day.push_back(small.pieces.unit() * nodes[v][i]);
                    changed += nodes[u][i] != nodes[v][i];
                }
                const double fall = std::log(static_cast<double>(total(nodes[u])) / total(nodes[v]));
                edges.push_back(
                    {u, v, planning::step_cost(small.query, fall, small.pieces.day_burden(day), changed)});
            }
        }
        std::vector<double> cost(nodes.size(), 1e9);
        cost[0] = 0;
        for (bool changed = true; changed;) {
            changed = false;
            for (const Edge& edge : edges)
                if (cost[edge.from] + edge.cost < cost[edge.to]) {
                    cost[edge.to] = cost[edge.from] + edge.cost;
                    changed = true;
                }
        }
        found = 1e9;
        for (std::size_t v = 0; v < nodes.size(); ++v)
            if (total(nodes[v]) == 1) found = std::min(found, cost[v]);
    }
    state.counters["cost"] = found;
}
BENCHMARK(way_down_by_the_textbook)->Unit(benchmark::kMillisecond);

// The same cases as integer programs, their graphs laid beforehand: only the solver's own time counts.
double solved(benchmark::State& state, const planning::ShapeGrid& shape, const PieceTable& pieces,
              const planning::PathQuery& query) {
    const reference::WayDownProgram program(shape, pieces, query);
    double cost = 0;
    for (auto _ : state) cost = program.solve().value();
    state.counters["cost"] = cost;
    state.counters["steps"] = static_cast<double>(program.steps());
    return cost;
}

void way_down_by_the_solver(benchmark::State& state) {
    Small small;
    small.query.end = 1;
    solved(state, small.shape(), small.pieces, small.query);
}
BENCHMARK(way_down_by_the_solver)->Unit(benchmark::kMillisecond);

// 40 mg in three dose times over a liquid at 0.05 mL: eight hundred daily totals.
struct Middle {
    std::vector<Product> products{solid("diazepam", "10", Cuts::halves), solution("diazepam", "1", "0.05")};
    PieceTable pieces{products, "diazepam", PieceWeights(), Dose::milligrams(14)};
    planning::PathQuery query = [] {
        planning::PathQuery asked = three_times_twenty();
        asked.from = {260, 260, 280};
        asked.target = Share::percent(7);
        asked.end = 20;
        return asked;
    }();

    planning::ShapeGrid shape() const {
        planning::ShapeInput input{Shape::even, {}, 0, pieces.unit().ng(), {}};
        for (const std::int32_t units : query.from) input.start_ng.push_back(units * pieces.unit().ng());
        for (std::int32_t units = 0; units <= 280; ++units)
            input.makeable.push_back(pieces.makes(pieces.unit() * units));
        return planning::ShapeGrid(std::move(input));
    }
};

void liquid_by_the_graph(benchmark::State& state) {
    const Middle middle;
    double cost = 0;
    for (auto _ : state) cost = planning::find_path(middle.shape(), middle.pieces, middle.query, {})->cost;
    state.counters["cost"] = cost;
}
BENCHMARK(liquid_by_the_graph)->Unit(benchmark::kMillisecond);

void liquid_by_the_solver(benchmark::State& state) {
    const Middle middle;
    solved(state, middle.shape(), middle.pieces, middle.query);
}
BENCHMARK(liquid_by_the_solver)->Unit(benchmark::kMillisecond);

// Growth: 40 mg in three dose times over a liquid whose measuring step halves each time. The argument is the
// number of daily totals that can be reached.
void taper_by_totals(benchmark::State& state) {
    const std::int64_t step_ng = Dose::milligrams(40).ng() / state.range(0);
    const Product liquid{"diazepam", Form::oral_solution, Dose::milligrams(1), Cuts::whole,
                         Volume::nanolitres(step_ng)};
    TaperInput input = three_dose_times("13", {solid("diazepam", "10", Cuts::halves), liquid});
    input.start.doses.back().amount = mg("14");
    PlanRequest request = ten_percent();
    request.target = Share::percent(7);
    request.last_dose = mg("1");
    for (auto _ : state) benchmark::DoNotOptimize(plan_taper(request, input, shipped_rules()).value());
    state.SetComplexityN(state.range(0));
}
BENCHMARK(taper_by_totals)
    ->Arg(400)
    ->Arg(800)
    ->Arg(1600)
    ->Arg(3200)
    ->Arg(6400)
    ->Arg(12'800)
    ->Unit(benchmark::kMillisecond)
    ->Complexity(benchmark::oNLogN);

// Growth in steps: the same over 0.05 mL, the target so small that there are more and more of them.
void taper_by_steps(benchmark::State& state) {
    TaperInput input =
        three_dose_times("13", {solid("diazepam", "10", Cuts::halves), solution("diazepam", "1", "0.05")});
    input.start.doses.back().amount = mg("14");
    PlanRequest request = ten_percent();
    request.target = Share::of(state.range(0), 1000);
    request.last_dose = mg("1");
    request.test_reduction = false;
    std::size_t steps = 0;
    for (auto _ : state) steps = plan_taper(request, input, shipped_rules()).value().steps.size();
    state.counters["steps"] = static_cast<double>(steps);
}
BENCHMARK(taper_by_steps)->Arg(100)->Arg(50)->Arg(25)->Arg(12)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace evenfall

int main(int argc, char** argv) {
    return evenfall::bench::run_with_ratios(
        argc, argv,
        {{"liquid_by_the_solver", "liquid_by_the_graph", "the same cost, at least 100 times faster"},
         {"way_down_by_the_solver", "way_down_by_the_graph", "the same cost, a small graph"},
         {"way_down_by_the_textbook", "way_down_by_the_graph", "the same cost, many times faster"},
         {"taper_over_a_liquid", "way_down_by_the_graph", "the liquid under 50 ms"}});
}
