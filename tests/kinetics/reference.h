// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "kinetics/levels.h"

// A slow reference that shares nothing with the room but the constants: the equations are written out again,
// and a step is a plain Taylor series in long double over many small parts.

namespace evenfall::kinetics::reference {

using Real = long double;
using Amounts = std::array<Real, 6>;

/// The derivative of gut, parent, tissue (always there, empty without exchange), metabolites.
inline Amounts derivative(const Kinetics& k, const Amounts& x) {
    const Real ln2 = std::log(Real(2));
    const Real terminal = ln2 / k.half_life_h;
    Real elimination = terminal, to = 0, back = 0;
    if (k.distribution) {
        to = k.distribution->to_tissue_per_h;
        back = k.distribution->back_per_h;
        elimination = terminal * (back + to - terminal) / (back - terminal);
    }
    const Real absorbed = ln2 / k.absorption_half_life_h * x[0];
    Amounts d{};
    d[0] = -absorbed;
    d[1] = absorbed - elimination * x[1] - to * x[1] + back * x[2];
    d[2] = to * x[1] - back * x[2];
    for (std::size_t i = 0; i < k.metabolites.size(); ++i) {
        Real leaving = elimination * x[1];
        for (std::size_t j = 0; j < i; ++j)
            if (k.metabolites[j].name == k.metabolites[i].from)
                leaving = ln2 / k.metabolites[j].half_life_h * x[3 + j];
        d[3 + i] = k.metabolites[i].formed_fraction * leaving - ln2 / k.metabolites[i].half_life_h * x[3 + i];
    }
    return d;
}

/// The state `hours` later, in parts short enough that twenty-five terms are far beyond long double.
inline Amounts later(const Kinetics& k, Amounts x, Real hours) {
    Real fastest = std::log(Real(2)) / k.absorption_half_life_h + 1;
    if (k.distribution) fastest += k.distribution->to_tissue_per_h + k.distribution->back_per_h;
    for (const Metabolite& m : k.metabolites) fastest += std::log(Real(2)) / m.half_life_h;
    fastest += std::log(Real(2)) / k.half_life_h * 10;
    const int parts = static_cast<int>(std::ceil(fastest * hours)) + 1;
    const Real part = hours / parts;
    for (int p = 0; p < parts; ++p) {
        Amounts term = x;
        for (int n = 1; n <= 25; ++n) {
            term = derivative(k, term);
            for (Real& t : term) t *= part / n;
            for (std::size_t i = 0; i < x.size(); ++i) x[i] += term[i];
        }
    }
    return x;
}

/// Column by column as `levels` gives them, from an empty body; doses must be in order of time.
inline std::vector<std::vector<Real>> levels(const Kinetics& k, const std::vector<TimedDose>& doses,
                                             const Grid& grid) {
    std::vector<std::vector<Real>> columns((k.distribution ? 3 : 2) + k.metabolites.size());
    Amounts x{};
    Real now = grid.first_h;
    std::size_t next = 0;
    for (std::size_t i = 0; i < grid.count; ++i) {
        const Real at = Real(grid.first_h) + Real(grid.step_h) * i;
        for (; next < doses.size() && Real(doses[next].time_h) + k.lag_h <= at; ++next) {
            const Real arrives = Real(doses[next].time_h) + k.lag_h;
            x = later(k, x, arrives - now);
            now = arrives;
            x[0] += Real(k.bioavailability) * doses[next].mg;
        }
        x = later(k, x, at - now);
        now = at;
        std::size_t column = 0;
        for (std::size_t place = 0; place < 3 + k.metabolites.size(); ++place)
            if (place != 2 || k.distribution) columns[column++].push_back(x[place]);
    }
    return columns;
}

}  // namespace evenfall::kinetics::reference
