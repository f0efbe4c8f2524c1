// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <numeric>
#include <optional>
#include <vector>

#include <glpk.h>

#include "planning/pieces.h"

// The burden of a day as an integer program for GLPK: an independent statement of the same problem.

namespace evenfall::reference {

class Program {
  public:
    Program() : problem_(glp_create_prob()) {
        glp_term_out(GLP_OFF);  // the cut generators print whatever the message level
        glp_set_obj_dir(problem_, GLP_MIN);
    }
    ~Program() { glp_delete_prob(problem_); }
    Program(const Program&) = delete;
    Program& operator=(const Program&) = delete;

    int row(int kind, double low, double high) {
        const int row = glp_add_rows(problem_, 1);
        glp_set_row_bnds(problem_, row, kind, low, high);
        return row;
    }
    int column(double cost, double most, int kind = GLP_IV) {
        const int column = glp_add_cols(problem_, 1);
        glp_set_obj_coef(problem_, column, cost);
        glp_set_col_kind(problem_, column, kind);
        if (most > 0) glp_set_col_bnds(problem_, column, GLP_DB, 0, most);
        if (most <= 0) glp_set_col_bnds(problem_, column, GLP_FX, 0, 0);
        return column;
    }
    void entry(int row, int column, double value) {
        rows_.push_back(row);
        columns_.push_back(column);
        values_.push_back(value);
    }
    std::optional<int> solve() {
        glp_load_matrix(problem_, static_cast<int>(rows_.size()) - 1, rows_.data(), columns_.data(),
                        values_.data());
        glp_iocp options;
        glp_init_iocp(&options);
        options.presolve = GLP_ON;
        options.msg_lev = GLP_MSG_OFF;
        options.gmi_cuts = options.mir_cuts = options.cov_cuts = GLP_ON;
        if (glp_intopt(problem_, &options) != 0 || glp_mip_status(problem_) != GLP_OPT) return std::nullopt;
        return static_cast<int>(std::lround(glp_mip_obj_val(problem_)));
    }

  private:
    glp_prob* problem_;
    std::vector<int> rows_{0}, columns_{0};
    std::vector<double> values_{0};
};

/// The grid of the products, by number theory: an equation that it does not divide has no answer in whole
/// numbers, which branch and bound would take for ever to find out.
inline std::int64_t grid_ng(const std::vector<Product>& products) {
    std::int64_t grid = 0;
    for (const Product& product : products) {
        const std::int64_t parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
        const Dose step =
            is_liquid(product.form) ? *amount_in(product.measure, product.strength) : product.strength;
        grid = std::gcd(grid, step.ng() / parts);
    }
    return grid;
}

/// The least burden of the day, or nothing where it cannot be made. Amounts enter in micrograms (the test's
/// amounts are multiples of a sixteenth, exact in binary).
inline std::optional<int> least_burden(const std::vector<Product>& products, const std::vector<Dose>& amounts,
                                       const PieceWeights& weights) {
    for (const Dose amount : amounts)
        if (amount.ng() % grid_ng(products) != 0) return std::nullopt;
    Program program;
    const auto mcg = [](Dose dose) { return static_cast<double>(dose.ng()) / 1000; };
    std::vector<int> sums;
    for (const Dose amount : amounts) sums.push_back(program.row(GLP_FX, mcg(amount), mcg(amount)));
    for (std::size_t p = 0; p < products.size(); ++p) {
        const Product& product = products[p];
        bool doubled = false;
        for (std::size_t q = 0; q < p; ++q) doubled |= products[q] == product;
        if (doubled) continue;
        const int used = program.column(weights.product, 1);
        for (std::size_t t = 0; t < amounts.size(); ++t) {
            const auto add = [&](double amount, double cost, double most) {
                const int count = program.column(cost, most);
                program.entry(sums[t], count, amount);
                const int linked = program.row(GLP_UP, 0, 0);  // count <= most * used
                program.entry(linked, count, 1);
                program.entry(linked, used, -most);
                return count;
            };
            const double whole = mcg(product.strength);
            const double most = std::floor(mcg(amounts[t]) / whole * 4);
            if (is_liquid(product.form)) {
                const double step = product.measure.ml() * whole;
                const double steps = std::floor(weights.most.ml() / product.measure.ml() + 1e-9);
                const int count = add(step, 0, steps);
                const int pours = program.column(weights.piece, 2);
                const int poured = program.row(GLP_UP, 0, 0);  // volume <= 5 mL * pours
                program.entry(poured, count, product.measure.ml());
                program.entry(poured, pours, -weights.pour.ml());
                continue;
            }
            add(whole, weights.piece, std::floor(most / 4));
            if (product.cuts != Cuts::whole)
                add(whole / 2, weights.piece + weights.half, std::floor(most / 2));
            if (product.cuts == Cuts::quarters) add(whole / 4, weights.piece + weights.quarter, most);
        }
    }
    return program.solve();
}

}  // namespace evenfall::reference
