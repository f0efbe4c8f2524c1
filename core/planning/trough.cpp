// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/trough.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenfall::planning {

double trough_share(std::span<const std::int32_t> amounts, const std::vector<double>& hours,
                    double half_life_h) {
    constexpr double kDay = 24;
    const double rate = std::log(2) / half_life_h;
    double lowest = std::numeric_limits<double>::infinity(), total = 0;
    for (std::size_t j = 0; j < amounts.size(); ++j) {
        total += amounts[j];
        if (amounts[j] == 0) continue;
        double level = 0;
        for (std::size_t i = 0; i < amounts.size(); ++i) {
            const double since = hours[j] - hours[i];
            level += amounts[i] * std::exp(-rate * (since > 0 ? since : since + kDay));
        }
        lowest = std::min(lowest, level);
    }
    // A dose of a adds a / (1 - exp(-24 k)) of what is left of it; the average is total / (24 k).
    return total > 0 ? lowest * kDay * rate / (-std::expm1(-kDay * rate) * total) : 0;
}

}  // namespace evenfall::planning
