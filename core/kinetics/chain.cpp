// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/chain.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenfall::kinetics {
namespace {

// With the shifted matrix times the step at most 1/2, the term after the last kept is below 0.5^18/18! =
// 6e-22.
constexpr int kTerms = 17;

Matrix product(const Chain& chain, const Matrix& a, const Matrix& b) {
    Matrix result;
    for (std::size_t i = 0; i < chain.size; ++i)
        for (std::size_t k = 0; k <= chain.last(i); ++k)
            for (std::size_t j = 0; j <= chain.last(k); ++j) result.at(i, j) += a.at(i, k) * b.at(k, j);
    return result;
}

double fastest(const Chain& chain) {
    double rate = 0;
    for (std::size_t i = 0; i < chain.size; ++i) rate = std::max(rate, -chain.rates.at(i, i));
    return rate;
}

/// exp(x) for x nowhere negative and small, by Horner's rule: 1 + x (1 + x/2 (1 + x/3 (…))).
Matrix series(const Chain& chain, const Matrix& x) {
    Matrix sum;
    for (std::size_t i = 0; i < chain.size; ++i) sum.at(i, i) = 1;
    for (int term = kTerms; term > 0; --term) {
        sum = product(chain, x, sum);
        for (double& cell : sum.cells) cell /= term;
        for (std::size_t i = 0; i < chain.size; ++i) sum.at(i, i) += 1;
    }
    return sum;
}

/// Outside the exchange the diagonal is known in closed form: setting it keeps the squarings from wearing it.
void set_diagonal(const Chain& chain, double hours, Matrix& m) {
    for (std::size_t i = 0; i < chain.size; ++i)
        if (!chain.exchanges || i < 1 || i > 2) m.at(i, i) = std::exp(chain.rates.at(i, i) * hours);
}

}  // namespace

Matrix transition(const Chain& chain, double hours) {
    const double shift = fastest(chain);
    const int halvings = std::max(0, std::ilogb(std::max(shift * hours, 0.25)) + 2);
    double part = std::ldexp(hours, -halvings);
    Matrix shifted = chain.rates;
    for (std::size_t i = 0; i < chain.size; ++i) shifted.at(i, i) += shift;
    for (double& cell : shifted.cells) cell *= part;
    Matrix result = series(chain, shifted);
    const double back = std::exp(-shift * part);
    for (double& cell : result.cells) cell *= back;
    set_diagonal(chain, part, result);
    for (int i = 0; i < halvings; ++i) {
        part *= 2;
        result = product(chain, result, result);
        set_diagonal(chain, part, result);
    }
    return result;
}

State times(const Chain& chain, const Matrix& m, const State& x) {
    State result{};
    for (std::size_t i = 0; i < chain.size; ++i)
        for (std::size_t j = 0; j <= chain.last(i); ++j) result[i] += m.at(i, j) * x[j];
    return result;
}

State solve_repeating(const Chain& chain, const Matrix& m, const State& b) {
    State x = b;
    for (std::size_t i = 0; i < chain.size; ++i) {
        if (chain.exchanges && i == 1) {
            const double r1 = b[1] + m.at(1, 0) * x[0];
            const double r2 = b[2] + m.at(2, 0) * x[0];
            const double stay = 1 - m.at(1, 1), stay_tissue = 1 - m.at(2, 2);
            const double determinant = stay * stay_tissue - m.at(1, 2) * m.at(2, 1);
            x[1] = (stay_tissue * r1 + m.at(1, 2) * r2) / determinant;
            x[2] = (stay * r2 + m.at(2, 1) * r1) / determinant;
            i = 2;
            continue;
        }
        for (std::size_t j = 0; j < i; ++j) x[i] += m.at(i, j) * x[j];
        x[i] /= 1 - m.at(i, i);
    }
    return x;
}

}  // namespace evenfall::kinetics
