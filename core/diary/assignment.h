// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace evenfall {

/// For each entry the intended dose time that it was, if any.
struct Assignment {
    std::vector<std::optional<std::size_t>> of_entry;  ///< index into the intended, by entry
    int cost = 0;  ///< half-minutes: twice each pair's distance, and `window` for each one left alone
};

/// Matches the entries of a diary day to its intended dose times at the least total distance, exactly: a late
/// dose is one late dose, not a missed and an extra one. Both are minutes from the day's beginning, in order;
/// a pair may be up to `window` minutes apart, since beyond it leaving both alone is cheaper. Distances never
/// gain by crossing, so a table of (entries × dose times) finds the optimum.
Assignment assign(const std::vector<int>& entries, const std::vector<int>& intended, int window);

}  // namespace evenfall
