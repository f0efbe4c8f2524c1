// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace evenfall::kinetics {

struct Percentiles {
    double p10 = 0, p50 = 0, p90 = 0;
};

/// Finds percentiles, row after row; holds the room that this takes. The work is linear in the values: they
/// are counted into buckets of equal width, and only those of the buckets asked for are put in order.
class PercentileFinder {
  public:
    /// The 10th, 50th and 90th percentile, interpolated between neighbours (Hyndman and Fan's type 7, the
    /// default of R and NumPy). REQUIRES at least one value, all of them finite.
    Percentiles find(std::span<const double> values);

  private:
    void count(std::span<const double> values);
    std::size_t bucket_of(double value) const;
    double at_position(std::span<const double> values, double position);
    /// The value of rank `rank` (from 0), and the one after it.
    std::pair<double, double> neighbours(std::span<const double> values, std::size_t rank);

    double lowest_ = 0, per_width_ = 0;
    std::vector<std::uint32_t> counts_;
    std::vector<std::uint16_t> bucket_;  // of each value
    std::vector<double> chosen_;
};

}  // namespace evenfall::kinetics
