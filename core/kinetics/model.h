// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "formulary/drug.h"
#include "kinetics/chain.h"
#include "units/result.h"

namespace evenfall::kinetics {

/// The linear model of one agent: gut depot → parent (with a tissue compartment where the agent has one) → up
/// to three metabolites. Linear: levels of doses add, and of several agents. No tolerance, no concentration.
class Model {
  public:
    /// Checks the constants; all faults are reported, `place` before each field's name. Faults:
    /// `kinetics-number` (not a number, or outside what any agent has), `kinetics-range` (the middle outside
    /// its range), `kinetics-tissue` (the terminal half-life is too short for the exchange with the tissues),
    /// `kinetics-metabolites` (more than three), `kinetics-metabolite-from`, `kinetics-metabolite-name`,
    /// `kinetics-fractions` (more than all of what leaves a species becomes metabolites).
    static Result<Model> make(const Kinetics& kinetics, std::string_view drug, std::string_view place = "");

    /// "<drug> in gut", "<drug>", ("<drug> in tissue",) and the metabolites by name.
    const std::vector<std::string>& columns() const { return columns_; }
    std::size_t size() const { return chain_.size; }
    const std::string& drug() const { return columns_[1]; }

    double lag_h() const { return lag_h_; }
    double bioavailability() const { return bioavailability_; }
    const Chain& chain() const { return chain_; }
    /// The chain with one more place: the running area (mg/day × h) under the relative level.
    const Chain& with_area() const { return with_area_; }

    /// Elimination rate of the parent from the central compartment, 1/h: with a tissue compartment it is
    /// solved from the terminal half-life.
    double elimination_per_h() const { return elimination_; }
    /// The area under the potency-weighted sum of parent and metabolites that 1 mg brings, mg·h.
    double weighted_area_per_mg() const { return weighted_area_; }
    /// What each place counts in the relative level: relative level (mg/day) = Σ weight × amount. Constant
    /// dosing of R mg/day averages R at steady state.
    const State& relative_weights() const { return weights_; }

    bool operator==(const Model&) const = default;

  private:
    Model() = default;
    void set_up(const Kinetics& kinetics, std::string_view drug);

    std::vector<std::string> columns_;
    Chain chain_;
    Chain with_area_;
    State weights_{};
    double lag_h_ = 0, bioavailability_ = 1, elimination_ = 0, weighted_area_ = 0;
};

/// The relative level of a state, mg/day.
double relative_level(const Model& model, const State& state);

/// mg/day of diazepam for 1 mg/day of relative level: 10 ÷ the milligrams equal to 10 mg of diazepam.
double diazepam_per_mg(Dose equal_to_10_mg_diazepam);

/// The constants with the parent's and every metabolite's half-life at the short or the long end of its
/// published range (the middle where no range is given).
Kinetics fast_end(const Kinetics& kinetics);
Kinetics slow_end(const Kinetics& kinetics);

}  // namespace evenfall::kinetics
