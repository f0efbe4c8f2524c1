// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace evenfall::kinetics {

struct Percentiles {
    double p10 = 0, p50 = 0, p90 = 0;
};

/// The 10th, 50th and 90th percentile, interpolated between neighbours (Hyndman and Fan's type 7, the default
/// of R and NumPy). Reorders the values. REQUIRES at least one, none of them not a number.
Percentiles percentiles(std::span<double> values);

}  // namespace evenfall::kinetics
