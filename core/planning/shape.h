// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "model/plan.h"

namespace evenfall::planning {

/// A day's amounts by dose time, in units of the products' grid.
using Amounts = std::vector<std::int32_t>;

/// What a shape is told: the amounts before the taper, and which of them can be made.
struct ShapeInput {
    Shape shape = Shape::even;
    std::vector<std::int64_t> start_ng;  ///< by dose time, in order of the clock; at least one above zero
    std::size_t first = 0;               ///< for Shape::dose_time_first
    std::int64_t unit_ng = 1;
    std::vector<bool> makeable;  ///< by amount in units, up to the largest start amount
};

/// The daily regimens that keep a shape.
class ShapeGrid {
  public:
    explicit ShapeGrid(ShapeInput input);

    /// The regimens with this total whose every dose time is at what the shape asks there or the next
    /// makeable amount on either side, none above the start. Larger at night: what rounding leaves over goes
    /// to the last dose time, so of all these only those with the two largest last amounts. Beyond five dose
    /// times the first 32 found, the nearest amounts tried first.
    std::vector<Amounts> regimens(std::int32_t total) const;

    /// A fall of the total by more than this lowers every dose time that is left, whichever regimens of the
    /// shape are taken at both ends: each stands within one makeable amount of its wish, and the wishes move
    /// apart. The largest number where no fall does (a dose time first).
    std::int32_t all_fall_beyond() const;

  private:
    /// What is asked of a dose time: numerator / denominator units.
    struct Wish {
        std::int64_t numerator;
        std::int64_t denominator;
    };
    struct Search;

    Wish wish(std::size_t i, std::int32_t total) const;
    std::vector<std::int32_t> candidates(std::size_t i, Wish wish) const;
    void descend(Search& search, std::size_t i, std::int32_t left) const;
    void close(Search& search, std::int32_t left) const;

    ShapeInput input_;
    std::int64_t start_total_ = 0;
    std::vector<std::int32_t> most_;  ///< by dose time
    std::vector<std::int32_t> below_,
        above_;  ///< the next makeable amount at or below / at or above each amount; -1: none
};

}  // namespace evenfall::planning
