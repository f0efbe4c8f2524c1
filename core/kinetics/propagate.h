// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include "kinetics/arrivals.h"

// The inner loop of the levels: multiplications by fixed matrices, written for each size of chain so that
// they stay in registers. Eight instants are computed at once from the state before them, with the matrices
// of one to eight steps: the next eight then wait for one product and not for eight in a row.

namespace evenfall::kinetics {

inline constexpr std::size_t kAtOnce = 8;

/// States at some instants in a row: for each place its values, of which the first `count` are meant.
struct Instants {
    std::size_t first = 0;
    std::size_t count = 0;
    std::array<std::array<double, kAtOnce>, kMostPlaces> values{};
};

/// What leads from one state to those of the next eight instants: for each cell of the matrix its values at
/// one to eight steps.
class Strides {
  public:
    /// For a grid of `count` instants: no more of them than its steps.
    Strides(const Chain& chain, double step_h, std::size_t count) {
        for (std::size_t n = 0; n < kAtOnce && n + 1 < count; ++n) {
            const Matrix m = transition(chain, static_cast<double>(n + 1) * step_h);
            for (std::size_t i = 0; i < m.cells.size(); ++i) cells_[i][n] = m.cells[i];
        }
    }

    const std::array<double, kAtOnce>& at(std::size_t row, std::size_t column) const {
        return cells_[row * kMostPlaces + column];
    }

  private:
    std::array<std::array<double, kAtOnce>, kMostPlaces * kMostPlaces> cells_{};
};

/// The first `Count` instants after state `x` of a chain of N places.
template <std::size_t N, bool Exchanges, std::size_t Count>
inline void stride(const Strides& strides, const State& x, Instants& out) {
    const auto add = [&](std::size_t row, std::size_t column) {
        for (std::size_t n = 0; n < Count; ++n) out.values[row][n] += strides.at(row, column)[n] * x[column];
    };
#pragma GCC unroll 8
    for (std::size_t i = 0; i < N; ++i) {
        for (std::size_t n = 0; n < Count; ++n) out.values[i][n] = strides.at(i, 0)[n] * x[0];
#pragma GCC unroll 8
        for (std::size_t j = 1; j <= i; ++j) add(i, j);
        if constexpr (Exchanges)
            if (i == 1) add(1, 2);
    }
    out.count = Count;
}

/// Goes through a grid and hands every instant, doses of that instant included, to `write(const Instants&)`.
template <std::size_t N, bool Exchanges, class Write>
class Propagation {
  public:
    Propagation(const Chain& chain, const State& first, const Grid& grid, const Write& write)
        : strides_(chain, grid.step_h, grid.count),
          response_(chain),
          x_(first),
          count_(grid.count),
          write_(write) {}

    void run(const std::vector<Arrival>& doses) {
        auto dose = doses.begin();
        while (now_.first < count_) {
            const std::size_t until = dose == doses.end() ? count_ : dose->index;
            without_doses(until);
            if (until == count_) return;
            if (until > 0) step();
            for (; dose != doses.end() && dose->index == until; ++dose) take(*dose);
            write_state();
        }
    }

  private:
    /// Instants now_.first … until - 1.
    void without_doses(std::size_t until) {
        if (now_.first == 0 && until > 0) write_state();
        while (now_.first + kAtOnce <= until) {
            stride<N, Exchanges, kAtOnce>(strides_, x_, now_);
            for (std::size_t i = 0; i < N; ++i) x_[i] = now_.values[i][kAtOnce - 1];
            write_(now_);
            now_.first += kAtOnce;
        }
        while (now_.first < until) {
            step();
            write_state();
        }
    }

    void step() {
        stride<N, Exchanges, 1>(strides_, x_, now_);
        for (std::size_t i = 0; i < N; ++i) x_[i] = now_.values[i][0];
    }

    void take(const Arrival& dose) {
        if (dose.remainder_h == 0) {
            x_[0] += dose.mg;
            return;
        }
        const State& arrived = response_.after(dose.remainder_h);
        for (std::size_t i = 0; i < N; ++i) x_[i] += arrived[i] * dose.mg;
    }

    void write_state() {
        for (std::size_t i = 0; i < N; ++i) now_.values[i][0] = x_[i];
        now_.count = 1;
        write_(now_);
        ++now_.first;
    }

    Strides strides_;
    DepotResponse response_;
    State x_;
    Instants now_;
    std::size_t count_;
    const Write& write_;
};

/// Calls `use` with the chain's size and kind as constants: use.template operator()<N, Exchanges>().
template <class Use>
decltype(auto) with_size(const Chain& chain, const Use& use) {
    switch (chain.size * 2 + (chain.exchanges ? 1 : 0)) {
        case 4:
            return use.template operator()<2, false>();
        case 6:
            return use.template operator()<3, false>();
        case 7:
            return use.template operator()<3, true>();
        case 8:
            return use.template operator()<4, false>();
        case 9:
            return use.template operator()<4, true>();
        case 10:
            return use.template operator()<5, false>();
        case 11:
            return use.template operator()<5, true>();
        case 12:
            return use.template operator()<6, false>();
        case 13:
            return use.template operator()<6, true>();
        default:
            return use.template operator()<7, true>();
    }
}

/// From the start's state through the grid; `write_for` is given the chain's size and makes what is written
/// with: write_for.template operator()<N>() → a function of `const Instants&`.
template <class WriteFor>
void propagate(const Chain& chain, const Model& model, const Start& start,
               const std::vector<TimedDose>& doses, const Grid& grid, const WriteFor& write_for) {
    const State first = times(chain, transition(chain, grid.first_h - start.time_h), start.state);
    const std::vector<Arrival> events = arrivals(model, start, doses, grid);
    with_size(chain, [&]<std::size_t N, bool Exchanges>() {
        const auto write = write_for.template operator()<N>();
        Propagation<N, Exchanges, decltype(write)>(chain, first, grid, write).run(events);
    });
}

}  // namespace evenfall::kinetics
