// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/path.h"

#include <cmath>
#include <limits>
#include <random>

#include <gtest/gtest.h>

#include "planning/cases.h"
#include "planning/fall_queue.h"
#include "planning/path_reference.h"
#include "planning/path_solver.h"
#include "planning/planning_fixture.h"
#include "planning/trough.h"

namespace evenfall {
namespace {

using namespace planning;

int between(std::mt19937& random, int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
}

std::vector<Product> some_products(std::mt19937& random) {
    std::vector<std::vector<Product>> shelves{{solid("x", "1", Cuts::halves)},
                                              {solid("x", "1", Cuts::quarters)},
                                              {solid("x", "2", Cuts::whole), solid("x", "5", Cuts::whole)},
                                              {solid("x", "1", Cuts::quarters), solution("x", "1", "0.5")},
                                              {solid("x", "0.5", Cuts::whole), solid("x", "2", Cuts::halves)},
                                              {solution("x", "0.5", "0.5")}};
    return shelves[static_cast<std::size_t>(between(random, 0, static_cast<int>(shelves.size()) - 1))];
}

Amounts some_start(std::mt19937& random, const PieceTable& pieces) {
    const int times = between(random, 1, 3);
    Amounts start;
    for (int left = 20 - 2 * times; start.size() < static_cast<std::size_t>(times);) {
        const int units = between(random, 1, left / (times - static_cast<int>(start.size())));
        if (!pieces.makes(pieces.unit() * units)) continue;
        start.push_back(units);
        left -= units;
    }
    return start;
}

ShapeGrid even_shape(const Amounts& start, const PieceTable& pieces) {
    ShapeInput input{Shape::even, {}, 0, pieces.unit().ng(), {}};
    for (const std::int32_t units : start) input.start_ng.push_back(units * pieces.unit().ng());
    const std::int32_t most = *std::max_element(start.begin(), start.end());
    for (std::int32_t units = 0; units <= most; ++units)
        input.makeable.push_back(pieces.makes(pieces.unit() * units));
    return ShapeGrid(std::move(input));
}

TEST(Path, CostsAsLittleAsTheBestOfEveryWayDown) {
    std::mt19937 random(20270104);
    int reached = 0, unreachable = 0;
    for (int round = 0; round < cases(600); ++round) {
        const std::vector<Product> products = some_products(random);
        const PieceTable pieces(products, "x", PieceWeights::from(shipped_rules()), Dose::milligrams(20));
        PathQuery query;
        query.from = some_start(random, pieces);
        query.target = Share::percent(between(random, 4, 30));
        query.cap = std::max(query.target, Share::percent(between(random, 5, 60)));
        query.burden_weight = between(random, 0, 3) * 0.0001;
        query.dose_time_weight = between(random, 0, 2) * 10;
        if (between(random, 0, 2) > 0) query.end_weight = between(random, 1, 3) * 0.05;
        query.end_least = between(random, 0, 2) * 0.05;
        query.before = between(random, 20, 30);
        query.half_life_h = between(random, 4, 80);
        for (std::size_t i = 0; i < query.from.size(); ++i)
            query.hours.push_back(static_cast<double>(7 * i + 6));
        if (between(random, 0, 1) == 1) query.end = between(random, 1, query.from.front());
        if (between(random, 0, 1) == 1) query.test_least = Share::percent(between(random, 1, 20));
        const auto path = find_path(even_shape(query.from, pieces), pieces, query, {});
        const reference::EveryWayDown every(pieces, query);
        const auto least = every.cost();
        ASSERT_EQ(path.has_value(), least.has_value()) << "round " << round;
        (least ? reached : unreachable) += 1;
        if (!least) continue;
        EXPECT_NEAR(path->cost, *least, 1e-9) << "round " << round;
        std::int32_t last = 0;
        for (const std::int32_t units : path->steps.back().amounts) last += units;
        EXPECT_EQ(last, every.end()) << "round " << round;
    }
    EXPECT_GT(reached, cases(300));
    EXPECT_GT(unreachable, cases(20));
}

// Larger cases than can be walked one by one: one to three dose times, up to forty units, liquids and
// quarters.
TEST(Path, CostsAsLittleAsAnIntegerProgramsOptimum) {
    std::mt19937 random(20270106);
    int reached = 0;
    for (int round = 0; round < 100; ++round) {
        const std::vector<Product> products = some_products(random);
        const PieceTable pieces(products, "x", PieceWeights::from(shipped_rules()), Dose::milligrams(40));
        PathQuery query;
        const int times = between(random, 1, 3);
        while (query.from.size() < static_cast<std::size_t>(times)) {
            const int units = between(random, 1, 36 / times);
            if (pieces.makes(pieces.unit() * units)) query.from.push_back(units);
        }
        query.before = std::accumulate(query.from.begin(), query.from.end(), 0);
        query.target = Share::percent(between(random, 4, 25));
        query.cap = std::max(query.target, Share::percent(between(random, 5, 40)));
        query.burden_weight = between(random, 0, 3) * 0.00002;
        query.dose_time_weight = 10;
        query.end_weight = between(random, 0, 2) * 0.5;
        query.end_least = 0.05;
        query.half_life_h = between(random, 4, 80);
        query.hours = {7, 14.5, 22};
        query.hours.resize(query.from.size());
        query.end = between(random, 1, std::max(1, query.before / 3));
        const ShapeGrid shape = even_shape(query.from, pieces);
        const auto path = find_path(shape, pieces, query, {});
        const auto least = reference::WayDownProgram(shape, pieces, query).solve();
        ASSERT_EQ(path.has_value(), least.has_value()) << "round " << round;
        if (!least) continue;
        ++reached;
        EXPECT_NEAR(path->cost, *least, 1e-7) << "round " << round;
    }
    EXPECT_GT(reached, 40);
}

TEST(Path, TheTroughIsThatOfOneCompartment) {
    // One dose a day: trough over peak is exp(-24 k), trough over average k 24 exp(-24 k) / (1 - exp(-24 k)).
    const double rate = std::log(2) / 12;
    const Amounts one{4};
    EXPECT_NEAR(trough_share(one, {8}, 12), 24 * rate * 0.25 / 0.75, 1e-12);
    const Amounts two{4, 4}, left{0, 4};
    EXPECT_GT(trough_share(two, {8, 20}, 12), trough_share(left, {8, 20}, 12));
    EXPECT_GT(trough_share(left, {8, 20}, 60), trough_share(left, {8, 20}, 12));
}

// The same ways down with and without the queue: a shape of one dose time keeps every pair apart, so the
// queue is used at once; the textbook looks at every pair.
TEST(Path, TheQueueFindsWhatEveryPairFinds) {
    std::mt19937 random(20270105);
    for (int round = 0; round < 200; ++round) {
        const std::vector<double> logs = [] {
            std::vector<double> all{0};
            for (int u = 1; u <= 300; ++u) all.push_back(std::log(u));
            return all;
        }();
        const double cap = between(random, 5, 60) / 100.0, target = between(random, 2, 40) / 100.0;
        std::vector<std::int32_t> least;
        for (int u = 0; u <= 300; ++u) least.push_back(static_cast<std::int32_t>(std::ceil(u * (1 - cap))));
        const int apart = between(random, 0, 9);
        FallQueue queue(logs, least, target);
        std::vector<double> values(301);
        std::vector<bool> there(301, false);
        for (int u = 1; u <= 300; ++u) {
            const int v = u - apart - 1;
            if (v >= 1 && between(random, 0, 3) > 0) {
                there[static_cast<std::size_t>(v)] = true;
                values[static_cast<std::size_t>(v)] = between(random, 0, 1000) / 20000.0 - v * 0.0001;
                queue.offer(v, values[static_cast<std::size_t>(v)], u);
            }
            double cheapest = std::numeric_limits<double>::infinity();
            const auto cost = [&](std::size_t w) {
                const double off = logs[static_cast<std::size_t>(u)] - logs[w] - target;
                return values[w] + off * off;
            };
            for (int w = std::max(1, least[static_cast<std::size_t>(u)]); w <= v; ++w)
                if (there[static_cast<std::size_t>(w)])
                    cheapest = std::min(cheapest, cost(static_cast<std::size_t>(w)));
            const auto best = queue.best(u);
            ASSERT_EQ(best.has_value(), cheapest < 1e9) << "round " << round << ", " << u;
            if (!best) continue;
            ASSERT_NEAR(cost(static_cast<std::size_t>(*best)), cheapest, 1e-12) << round << ", " << u;
        }
    }
}

}  // namespace
}  // namespace evenfall
