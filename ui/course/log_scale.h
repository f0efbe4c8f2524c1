// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <vector>

#include "units/dose.h"

namespace evenfall::ui {

/// A log scale for daily amounts with a shelf for nothing at all: zero has no place on a log axis, so it
/// stands on a shelf of its own under a break. Places are base-10 logarithms of milligrams; none of them is
/// ever infinite.
class LogScale {
  public:
    /// Holds every amount above zero of the list, with round ends at least a factor of four apart.
    static LogScale holding(const std::vector<Dose>& amounts);

    /// Where an amount lies: on the shelf when it is zero.
    double place(Dose amount) const;
    double shelf() const { return bottom_ - 0.17 * (top_ - bottom_); }  ///< where zero lies
    double shelf_top() const {
        return bottom_ - 0.09 * (top_ - bottom_);
    }                                          ///< where the shelf begins, under the break
    double bottom() const { return bottom_; }  ///< of the log part
    double top() const { return top_; }
    double least() const { return bottom_ - 0.25 * (top_ - bottom_); }  ///< of the whole axis

    struct Tick {
        double place;
        QString label;
        bool operator==(const Tick&) const = default;
    };
    /// Round amounts within the log part, rising, at least `apart` places from each other.
    std::vector<Tick> ticks(double apart) const;

    bool operator==(const LogScale&) const = default;

  private:
    double bottom_ = 0;
    double top_ = 1;
};

}  // namespace evenfall::ui
