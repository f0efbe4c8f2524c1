// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace evenfall::sample {

/// Seeded draws in whole numbers only: the standard's distributions differ between libraries, these do not.
class Draws {
  public:
    explicit Draws(std::uint64_t seed) : random_(seed) {}

    /// 0 to `n` - 1. REQUIRES n > 0.
    int below(int n) { return static_cast<int>(random_() % static_cast<std::uint64_t>(n)); }
    int between(int low, int high) { return low + below(high - low + 1); }
    bool chance(int percent) { return below(100) < percent; }
    /// About 0, at most `spread` away, nearer values more often: the middle of three.
    int around(int spread);
    const std::string& one_of(const std::vector<std::string>& texts) {
        return texts[static_cast<std::size_t>(below(static_cast<int>(texts.size())))];
    }
    /// 32 hexadecimal digits.
    std::string id();

  private:
    std::mt19937_64 random_;
};

}  // namespace evenfall::sample
