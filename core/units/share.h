// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>
#include <string>

#include "units/dose.h"

namespace evenfall {

/// A share of a dose as an exact fraction, kept in lowest terms with a positive denominator. A cut of exactly
/// 10 % keeps a cap of 10 %: comparison never rounds.
class Share {
  public:
    constexpr Share() = default;
    /// numerator / denominator. REQUIRES denominator != 0.
    static Share of(std::int64_t numerator, std::int64_t denominator);
    /// The share by which `to` lies below `from`: (from - to) / from. REQUIRES from != 0.
    static Share cut(Dose from, Dose to);
    static Share percent(std::int64_t whole_percent) { return of(whole_percent, 100); }

    constexpr std::int64_t numerator() const { return numerator_; }
    constexpr std::int64_t denominator() const { return denominator_; }
    /// For models and weights only; limits are compared exactly.
    constexpr double value() const {
        return static_cast<double>(numerator_) / static_cast<double>(denominator_);
    }

    friend std::strong_ordering operator<=>(const Share& a, const Share& b);
    friend bool operator==(const Share& a, const Share& b) { return (a <=> b) == 0; }

  private:
    std::int64_t numerator_ = 0;
    std::int64_t denominator_ = 1;
};

/// A share as percent with one decimal, rounded half away from zero: "8.3"; a whole number keeps its decimal
/// only where `always_decimal` ("10.0"), as machine output does.
std::string print_percent(const Share& share, bool always_decimal = false);

}  // namespace evenfall
