// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/assignment.h"

#include <algorithm>
#include <cstdlib>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace evenfall {
namespace {

/// The least cost over every matching, crossing ones included.
int by_brute_force(const std::vector<int>& entries, const std::vector<int>& intended, int window,
                   std::size_t at, std::vector<bool>& used) {
    if (at == entries.size()) {
        const auto left = std::count(used.begin(), used.end(), false);
        return static_cast<int>(left) * window;
    }
    int best = window + by_brute_force(entries, intended, window, at + 1, used);
    for (std::size_t j = 0; j < intended.size(); ++j) {
        if (used[j]) continue;
        used[j] = true;
        const int pair = 2 * std::abs(entries[at] - intended[j]);
        best = std::min(best, pair + by_brute_force(entries, intended, window, at + 1, used));
        used[j] = false;
    }
    return best;
}

int cost_of(const Assignment& assignment, const std::vector<int>& entries, const std::vector<int>& intended,
            int window) {
    int cost = 0, pairs = 0;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (!assignment.of_entry[i]) continue;
        cost += 2 * std::abs(entries[i] - intended[*assignment.of_entry[i]]);
        ++pairs;
    }
    return cost + window * (static_cast<int>(entries.size() + intended.size()) - 2 * pairs);
}

TEST(Assignment, IsNeverWorseThanTryingEveryMatching) {
    EXPECT_TRUE(rc::check([] {
        auto entries = *rc::gen::resize(6, rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1440)));
        auto intended = *rc::gen::resize(5, rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1440)));
        const int window = *rc::gen::inRange(60, 900);
        std::sort(entries.begin(), entries.end());
        std::sort(intended.begin(), intended.end());
        const Assignment found = assign(entries, intended, window);
        std::vector<bool> used(intended.size(), false);
        RC_ASSERT(found.cost == by_brute_force(entries, intended, window, 0, used));
        RC_ASSERT(found.cost == cost_of(found, entries, intended, window));
    }));
}

TEST(Assignment, TakesALateDoseAsOneLateDose) {
    const Assignment found = assign({240 + 200, 1080}, {240, 1080}, 540);
    EXPECT_EQ(found.of_entry[0], 0u);
    EXPECT_EQ(found.of_entry[1], 1u);
}

TEST(Assignment, LeavesADoubledEveningDoseExtraAndTheMorningMissed) {
    const Assignment found = assign({1080, 1085}, {240, 1080}, 540);
    EXPECT_EQ(found.of_entry[0], 1u);
    EXPECT_FALSE(found.of_entry[1]);
}

TEST(Assignment, CopesWithEmptySides) {
    EXPECT_TRUE(assign({}, {1, 2}, 100).of_entry.empty());
    EXPECT_EQ(assign({}, {1, 2}, 100).cost, 200);
    EXPECT_FALSE(assign({5}, {}, 100).of_entry[0]);
}

}  // namespace
}  // namespace evenfall
