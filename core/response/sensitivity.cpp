// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/sensitivity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace evenfall {
namespace {

constexpr std::array<double, 30> kStudent = {
    6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812, 1.796, 1.782, 1.771, 1.761, 1.753,
    1.746, 1.740, 1.734, 1.729, 1.725, 1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697};

/// The fall of ln(dose) of a cut of 10 %.
const double kTenPercent = std::log(1 / 0.9);

std::string points_text(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", std::abs(value) < 0.05 ? 0.0 : value);
    return text;
}

struct Line {
    double slope = 0, error = 0;
};

/// Least squares through the origin.
Line line_of(const std::vector<SensitivityPoint>& points, double least_spread) {
    double cross = 0, square = 0, rest = 0;
    for (const auto& [fall, rise, cut] : points) {
        cross += fall * rise;
        square += fall * fall;
    }
    const double slope = cross / square;
    for (const auto& [fall, rise, cut] : points) rest += std::pow(rise - slope * fall, 2);
    const double spread = std::sqrt(rest / static_cast<double>(points.size() - 1));
    return {slope, std::max(spread, least_spread) / std::sqrt(square)};
}

/// `share` in thousandths, rounded down.
std::int64_t thousandths(double share) {
    return static_cast<std::int64_t>(std::floor(share * 1000 + 1e-9));
}

Share proposed(const SensitivityEstimate& estimate, const std::vector<SensitivityPoint>& points,
               const Share& cap, const Rules& rules) {
    const Share largest = std::ranges::max(points, {}, &SensitivityPoint::cut).cut;
    const double beyond = rules.number("sensitivity", "times_largest") * largest.value();
    const double high = estimate.high / kTenPercent;
    const double tolerable = rules.number("sensitivity", "tolerable_points");
    const double bearable = high > 0 ? 1 - std::exp(-tolerable / high) : 1;
    const Share share = Share::of(thousandths(std::min(bearable, beyond)), 1000);
    return std::min(cap, std::max(share, rules.percent("test-reduction", "least_percent")));
}

}  // namespace

double student_t_90(int degrees) {
    const int row = std::clamp(degrees, 1, static_cast<int>(kStudent.size()));
    return kStudent[static_cast<std::size_t>(row - 1)];
}

Sensitivity learn_sensitivity(const std::vector<SensitivityPoint>& points, const Share& cap,
                              const Rules& rules) {
    Sensitivity result;
    result.steps = static_cast<int>(points.size());
    const int least = std::max(2, rules.whole("sensitivity", "least_steps"));
    if (result.steps < least) {
        result.says.push_back({"sensitivity-few",
                               {{"steps", std::to_string(result.steps)}, {"least", std::to_string(least)}},
                               {}});
        return result;
    }
    const Line line = line_of(points, rules.number("sensitivity", "least_spread"));
    const double half = student_t_90(result.steps - 1) * line.error;
    const SensitivityEstimate estimate{kTenPercent * (line.slope - half), kTenPercent * line.slope,
                                       kTenPercent * (line.slope + half)};
    result.estimate = estimate;
    result.proposed_target = proposed(estimate, points, cap, rules);
    result.says.push_back({"sensitivity",
                           {{"steps", std::to_string(result.steps)},
                            {"low", points_text(estimate.low)},
                            {"middle", points_text(estimate.middle)},
                            {"high", points_text(estimate.high)},
                            {"target", print_percent(*result.proposed_target)},
                            {"cap", print_percent(cap)}},
                           {}});
    return result;
}

}  // namespace evenfall
