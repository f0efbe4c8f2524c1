// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>

namespace evenfall::kinetics {

/// The quantile of the standard normal distribution, 0 < p < 1, to about 1e-15 relative (Wichura, algorithm
/// AS 241, Appl. Statist. 37 (1988) 477-484).
double normal_quantile(double p);

/// Seeded draws that repeat on every build: the engine is fixed by the standard, and the transform is our own
/// (the standard's distributions differ between libraries).
class Draws {
  public:
    explicit Draws(std::uint64_t seed) : engine_(seed) {}

    /// Above 0 and below 1, from the engine's upper 53 bits.
    double uniform();
    /// A log-normal whose median is `middle` and whose 2.5th and 97.5th percentiles are `low` and `high`,
    /// each side with its own spread, truncated to the range. No range (both ends 0) gives the middle, and
    /// uses up a draw too.
    double within(double middle, double low, double high);

  private:
    std::mt19937_64 engine_;
};

}  // namespace evenfall::kinetics
