// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/percentiles.h"

#include <algorithm>
#include <cmath>

namespace evenfall::kinetics {
namespace {

/// The percentile at `position` (0 to n - 1) among all values, of which those before `from` are known to be
/// the smaller ones and those from `to` on the larger ones. Afterwards the values on either side are parted
/// there.
double at_position(std::span<double> values, double position, std::size_t from, std::size_t to) {
    const auto index = static_cast<std::size_t>(position);
    const auto nth = values.begin() + static_cast<std::ptrdiff_t>(index);
    std::nth_element(values.begin() + static_cast<std::ptrdiff_t>(from), nth,
                     values.begin() + static_cast<std::ptrdiff_t>(to));
    const double part = position - std::floor(position);
    if (part == 0) return *nth;
    // Where the range ends at the neighbour, what follows is larger anyway, and the smallest of it is the
    // neighbour.
    const double next = *std::min_element(
        nth + 1, index + 1 < to ? values.begin() + static_cast<std::ptrdiff_t>(to) : values.end());
    return *nth + part * (next - *nth);
}

}  // namespace

Percentiles percentiles(std::span<double> values) {
    const double last = static_cast<double>(values.size() - 1);
    const auto middle = static_cast<std::size_t>(0.5 * last);
    Percentiles result;
    result.p50 = at_position(values, 0.5 * last, 0, values.size());
    result.p10 = at_position(values, 0.1 * last, 0, middle + 1);
    result.p90 = at_position(values, 0.9 * last, middle, values.size());
    return result;
}

}  // namespace evenfall::kinetics
