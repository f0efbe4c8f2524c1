// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>

#include "kinetics/arrivals.h"

// The inner loop of the levels: one multiplication by a fixed matrix for each instant, written for each size
// of chain so that it stays in registers.

namespace evenfall::kinetics {

/// One step of a chain of N places; the own term is added last, since the step before it waits for that one
/// only.
template <std::size_t N, bool Exchanges>
inline void step(const Matrix& m, State& x) {
    State next;
#pragma GCC unroll 8
    for (std::size_t i = 0; i < N; ++i) {
        double sum = 0;
#pragma GCC unroll 8
        for (std::size_t j = 0; j < i; ++j) sum += m.at(i, j) * x[j];
        if constexpr (Exchanges)
            if (i == 1) sum += m.at(1, 2) * x[2];
        next[i] = sum + m.at(i, i) * x[i];
    }
#pragma GCC unroll 8
    for (std::size_t i = 0; i < N; ++i) x[i] = next[i];
}

/// Calls `write(index, state)` for every instant of the grid, doses of that instant included.
template <std::size_t N, bool Exchanges, class Write>
void propagate_sized(const Chain& chain, State x, const std::vector<Arrival>& doses, const Grid& grid,
                     const Write& write) {
    const Matrix m = transition(chain, grid.step_h);
    DepotResponse response(chain);
    auto dose = doses.begin();
    for (std::size_t i = 0; i < grid.count;) {
        const std::size_t next = dose == doses.end() ? grid.count : dose->index;
        for (; i < next; ++i) {
            if (i > 0) step<N, Exchanges>(m, x);
            write(i, x);
        }
        if (i == grid.count) return;
        if (i > 0) step<N, Exchanges>(m, x);
        for (; dose != doses.end() && dose->index == i; ++dose) {
            if (dose->remainder_h == 0) {
                x[0] += dose->mg;
                continue;
            }
            const State& arrived = response.after(dose->remainder_h);
            for (std::size_t place = 0; place < N; ++place) x[place] += arrived[place] * dose->mg;
        }
        write(i, x);
        ++i;
    }
}

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

/// `propagate_sized` for the chain's own size, from the start's state on.
template <class Write>
void propagate(const Chain& chain, const Model& model, const Start& start,
               const std::vector<TimedDose>& doses, const Grid& grid, const Write& write) {
    const State first = times(chain, transition(chain, grid.first_h - start.time_h), start.state);
    const std::vector<Arrival> events = arrivals(model, start, doses, grid);
    with_size(chain, [&]<std::size_t N, bool Exchanges>() {
        propagate_sized<N, Exchanges>(chain, first, events, grid, write);
    });
}

}  // namespace evenfall::kinetics
