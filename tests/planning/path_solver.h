// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <vector>

#include <glpk.h>

#include "planning/path.h"
#include "planning/trough.h"

// The way down as an integer program for GLPK: one variable of zero or one for each step that may be taken,
// as much going into each regimen as comes out of it. A general formulation of the same problem, with its own
// statement of which step may follow which and what it costs.

namespace evenfall::reference {

class WayDownProgram {
  public:
    WayDownProgram(const planning::ShapeGrid& shape, const PieceTable& pieces,
                   const planning::PathQuery& query)
        : pieces_(pieces), query_(query), nodes_{query.from} {
        for (std::int32_t sum = total(query.from) - 1; sum >= *query.end; --sum)
            for (const planning::Amounts& each : shape.regimens(sum))
                if (burden(each) < kNotMakeable) nodes_.push_back(each);
        for (std::size_t u = 0; u < nodes_.size(); ++u) add_steps(u);
    }

    std::size_t steps() const { return steps_.size(); }

    /// The least cost, or nothing where the end cannot be reached.
    std::optional<double> solve() const {
        glp_term_out(GLP_OFF);
        glp_prob* problem = glp_create_prob();
        glp_set_obj_dir(problem, GLP_MIN);
        glp_add_rows(problem, static_cast<int>(nodes_.size()) + 1);
        // One unit leaves the regimen now; one arrives at a regimen of the last total.
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            const bool last = total(nodes_[n]) == *query_.end;
            const double out = n == 0 ? 1 : 0;
            glp_set_row_bnds(problem, static_cast<int>(n) + 1, last ? GLP_UP : GLP_FX, out, out);
        }
        glp_set_row_bnds(problem, static_cast<int>(nodes_.size()) + 1, GLP_FX, 1, 1);
        std::vector<int> rows{0}, columns{0};
        std::vector<double> values{0};
        glp_add_cols(problem, static_cast<int>(steps_.size()));
        for (std::size_t e = 0; e < steps_.size(); ++e) {
            const int column = static_cast<int>(e) + 1;
            glp_set_obj_coef(problem, column, steps_[e].cost);
            glp_set_col_kind(problem, column, GLP_BV);
            const auto entry = [&](std::size_t row, double value) {
                rows.push_back(static_cast<int>(row) + 1);
                columns.push_back(column);
                values.push_back(value);
            };
            entry(steps_[e].from, 1);
            entry(steps_[e].to, -1);
            if (total(nodes_[steps_[e].to]) == *query_.end) entry(nodes_.size(), 1);
        }
        glp_load_matrix(problem, static_cast<int>(rows.size()) - 1, rows.data(), columns.data(),
                        values.data());
        glp_iocp options;
        glp_init_iocp(&options);
        options.presolve = GLP_ON;
        options.msg_lev = GLP_MSG_OFF;
        std::optional<double> cost;
        if (!steps_.empty() && glp_intopt(problem, &options) == 0 && glp_mip_status(problem) == GLP_OPT)
            cost = glp_mip_obj_val(problem);
        glp_delete_prob(problem);
        return cost;
    }

  private:
    struct Step {
        std::size_t from, to;
        double cost;
    };

    static std::int32_t total(const planning::Amounts& amounts) {
        return std::accumulate(amounts.begin(), amounts.end(), 0);
    }
    int burden(const planning::Amounts& amounts) const {
        std::vector<Dose> day;
        for (const std::int32_t units : amounts) day.push_back(pieces_.unit() * units);
        return pieces_.day_burden(day);
    }
    // No dose time rises; one that ends does so alone.
    static bool may_follow(const planning::Amounts& u, const planning::Amounts& v) {
        bool ends = false;
        for (std::size_t i = 0; i < u.size(); ++i) {
            if (v[i] > u[i]) return false;
            ends = ends || (u[i] > 0 && v[i] == 0);
        }
        return total(v) < total(u) && (!ends || changed(u, v) == 1);
    }
    static int changed(const planning::Amounts& u, const planning::Amounts& v) {
        int count = 0;
        for (std::size_t i = 0; i < u.size(); ++i) count += u[i] != v[i];
        return count;
    }
    double cost(const planning::Amounts& u, const planning::Amounts& v) const {
        const double fall = std::log(static_cast<double>(total(u)) / total(v));
        const double off = fall - std::log(1 / (1 - query_.target.value()));
        double ends = 0;
        for (std::size_t i = 0; i < u.size(); ++i)
            if (u[i] > 0 && v[i] == 0 && query_.ends_freely != i && query_.end_weight > 0)
                ends = query_.end_weight * total(v) / query_.before *
                       std::max(query_.end_least,
                                planning::trough_share(u, query_.hours, query_.half_life_h) -
                                    planning::trough_share(v, query_.hours, query_.half_life_h));
        return off * off + ends +
               query_.burden_weight * (burden(v) + query_.dose_time_weight * changed(u, v));
    }
    void add_steps(std::size_t u) {
        std::int32_t nearest = 0;
        for (std::size_t v = u + 1; v < nodes_.size(); ++v)
            if (may_follow(nodes_[u], nodes_[v])) nearest = std::max(nearest, total(nodes_[v]));
        const auto keeps_cap = [&](std::int32_t to) {
            return Share::of(total(nodes_[u]) - to, total(nodes_[u])) <= query_.cap;
        };
        for (std::size_t v = u + 1; v < nodes_.size(); ++v) {
            const std::int32_t to = total(nodes_[v]);
            const bool allowed = keeps_cap(nearest) ? keeps_cap(to) : to == nearest;
            if (allowed && may_follow(nodes_[u], nodes_[v]))
                steps_.push_back({u, v, cost(nodes_[u], nodes_[v])});
        }
    }

    const PieceTable& pieces_;
    const planning::PathQuery& query_;
    std::vector<planning::Amounts> nodes_;
    std::vector<Step> steps_;
};

}  // namespace evenfall::reference
