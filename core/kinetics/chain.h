// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>

namespace evenfall::kinetics {

/// Depot, parent, tissue and three metabolites; one more place for the running area under a weighted sum.
inline constexpr std::size_t kMostStates = 6;
inline constexpr std::size_t kMostPlaces = kMostStates + 1;

/// Amounts in mg of parent-equivalent, in the order of `Model::columns()`; places beyond the model's are
/// zero.
using State = std::array<double, kMostPlaces>;

/// A square matrix over the places, row-major.
struct Matrix {
    std::array<double, kMostPlaces * kMostPlaces> cells{};

    double& at(std::size_t row, std::size_t column) { return cells[row * kMostPlaces + column]; }
    double at(std::size_t row, std::size_t column) const { return cells[row * kMostPlaces + column]; }
    bool operator==(const Matrix&) const = default;
};

/// A linear chain x' = A x in 1/h. Off the diagonal A is nowhere negative, and it is lower triangular but for
/// the exchange between places 1 and 2 (blood and tissue) where `exchanges` is set.
struct Chain {
    std::size_t size = 0;
    bool exchanges = false;
    Matrix rates;

    /// The last column of a row that can differ from zero.
    std::size_t last(std::size_t row) const { return exchanges && row == 1 ? 2 : row; }
    bool operator==(const Chain&) const = default;
};

/// exp(A h) for h >= 0 hours. Every entry is accurate relative to itself, whatever the rates and however near
/// they are to each other: the series is summed over A shifted to be nowhere negative, so nothing is ever
/// subtracted (Xue and Ye, "Computing exponentials of essentially non-negative matrices entrywise to high
/// relative accuracy", Math. Comp. 82 (2013); cited from memory).
Matrix transition(const Chain& chain, double hours);

/// m x.
State times(const Chain& chain, const Matrix& m, const State& x);

/// x of (I - m) x = b, for m = exp(A h) with h > 0.
State solve_repeating(const Chain& chain, const Matrix& m, const State& b);

}  // namespace evenfall::kinetics
