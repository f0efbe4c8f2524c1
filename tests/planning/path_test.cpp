// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/path.h"

#include <random>

#include <gtest/gtest.h>

#include "planning/path_reference.h"
#include "planning/planning_fixture.h"

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
    for (int round = 0; round < 600; ++round) {
        const std::vector<Product> products = some_products(random);
        const PieceTable pieces(products, "x", PieceWeights::from(shipped_rules()), Dose::milligrams(20));
        PathQuery query{
            some_start(random, pieces), {}, Share::percent(between(random, 4, 30)), {}, {}, {}, {}};
        query.cap = std::max(query.target, Share::percent(between(random, 5, 60)));
        query.burden_weight = between(random, 0, 3) * 0.0001;
        query.dose_time_weight = between(random, 0, 2) * 10;
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
    EXPECT_GT(reached, 300);
    EXPECT_GT(unreachable, 20);
}

}  // namespace
}  // namespace evenfall
