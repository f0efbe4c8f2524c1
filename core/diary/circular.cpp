// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/circular.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace evenfall {

namespace {

constexpr double kDay = 1440;
/// Below this resultant the direction is rounding noise: 00:00 and 12:00 have no mean.
constexpr double kNoDirection = 1e-12;
/// Above this resultant the spread is rounding noise: all at one time.
constexpr double kOneTime = 1 - 1e-14;

}  // namespace

ClockSpread clock_spread(const std::vector<double>& minutes) {
    ClockSpread spread;
    spread.count = static_cast<int>(minutes.size());
    if (minutes.empty()) return spread;
    double cosines = 0, sines = 0;
    for (const double minute : minutes) {
        const double angle = 2 * std::numbers::pi * minute / kDay;
        cosines += std::cos(angle);
        sines += std::sin(angle);
    }
    const auto n = static_cast<double>(minutes.size());
    const double resultant = std::hypot(cosines / n, sines / n);
    if (resultant < kNoDirection) {
        spread.sd_minutes = std::numeric_limits<double>::infinity();
        return spread;
    }
    spread.resultant = resultant > kOneTime ? 1 : resultant;
    spread.sd_minutes = std::sqrt(-2 * std::log(spread.resultant)) * kDay / (2 * std::numbers::pi);
    const double mean = std::atan2(sines, cosines) * kDay / (2 * std::numbers::pi);
    spread.mean_minutes = mean < 0 ? std::fmod(mean + kDay, kDay) : mean;
    return spread;
}

int minutes_between(ClockTime from, ClockTime to) {
    const int ahead = (to.minutes - from.minutes + 1440) % 1440;
    return ahead > 720 ? ahead - 1440 : ahead;
}

}  // namespace evenfall
