// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/model.h"

#include <algorithm>
#include <numbers>

#include "kinetics/check.h"

namespace evenfall::kinetics {
namespace {

double rate_of(double half_life_h) {
    return std::numbers::ln2 / half_life_h;
}

/// The elimination rate of the central compartment that gives the terminal rate: the smaller root of
/// x² − (k + to + back) x + k back.
double elimination_of(const Kinetics& kinetics) {
    const double terminal = rate_of(kinetics.half_life_h);
    if (!kinetics.distribution) return terminal;
    const auto [to, back] = *kinetics.distribution;
    return terminal * (1 + to / (back - terminal));
}

std::size_t place_of(const std::vector<std::string>& columns, const std::string& name) {
    return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), name) - columns.begin());
}

void set_distribution(const Distribution& distribution, Chain& chain) {
    chain.rates.at(1, 1) -= distribution.to_tissue_per_h;
    chain.rates.at(1, 2) = distribution.back_per_h;
    chain.rates.at(2, 1) = distribution.to_tissue_per_h;
    chain.rates.at(2, 2) = -distribution.back_per_h;
    chain.exchanges = true;
}

Kinetics at_end(Kinetics kinetics, double Kinetics::*of_parent, double Metabolite::*of_metabolite) {
    if (kinetics.*of_parent > 0) kinetics.half_life_h = kinetics.*of_parent;
    for (Metabolite& metabolite : kinetics.metabolites)
        if (metabolite.*of_metabolite > 0) metabolite.half_life_h = metabolite.*of_metabolite;
    kinetics.half_life_low_h = kinetics.half_life_high_h = 0;
    for (Metabolite& metabolite : kinetics.metabolites)
        metabolite.half_life_low_h = metabolite.half_life_high_h = 0;
    return kinetics;
}

}  // namespace

Result<Model> Model::make(const Kinetics& kinetics, std::string_view drug, std::string_view place) {
    Faults faults = check_constants(kinetics, drug, place);
    if (!faults.empty()) return faults;
    Model model;
    model.set_up(kinetics, drug);
    return model;
}

void Model::set_up(const Kinetics& kinetics, std::string_view drug) {
    const std::string parent(drug);
    columns_ = {parent + " in gut", parent};
    lag_h_ = kinetics.lag_h;
    bioavailability_ = kinetics.bioavailability;
    elimination_ = elimination_of(kinetics);

    chain_.rates.at(0, 0) = -rate_of(kinetics.absorption_half_life_h);
    chain_.rates.at(1, 0) = rate_of(kinetics.absorption_half_life_h);
    chain_.rates.at(1, 1) = -elimination_;
    if (kinetics.distribution) {
        columns_.push_back(parent + " in tissue");
        set_distribution(*kinetics.distribution, chain_);
    }

    // `leaving` is the rate at which each place is eliminated; `passing` the part of a dose that goes through
    // it.
    State leaving{}, passing{}, potency{};
    leaving[1] = elimination_;
    passing[1] = bioavailability_;
    potency[1] = 1;
    for (const Metabolite& metabolite : kinetics.metabolites) {
        const std::size_t from = place_of(columns_, metabolite.from), to = columns_.size();
        columns_.push_back(metabolite.name);
        leaving[to] = rate_of(metabolite.half_life_h);
        passing[to] = passing[from] * metabolite.formed_fraction;
        potency[to] = metabolite.relative_potency;
        chain_.rates.at(to, from) = leaving[from] * metabolite.formed_fraction;
        chain_.rates.at(to, to) = -leaving[to];
    }
    chain_.size = columns_.size();

    weighted_area_ = 0;
    for (std::size_t i = 1; i < chain_.size; ++i)
        if (potency[i] > 0 && passing[i] > 0) weighted_area_ += potency[i] * passing[i] / leaving[i];
    with_area_ = chain_;
    with_area_.size = chain_.size + 1;
    for (std::size_t i = 0; i < chain_.size; ++i) {
        weights_[i] = potency[i] * 24 / weighted_area_;
        with_area_.rates.at(chain_.size, i) = weights_[i];
    }
}

double relative_level(const Model& model, const State& state) {
    double level = 0;
    for (std::size_t i = 0; i < model.size(); ++i) level += model.relative_weights()[i] * state[i];
    return level;
}

double diazepam_per_mg(Dose equal_to_10_mg_diazepam) {
    return 10 / equal_to_10_mg_diazepam.mg();
}

Kinetics fast_end(const Kinetics& kinetics) {
    return at_end(kinetics, &Kinetics::half_life_low_h, &Metabolite::half_life_low_h);
}

Kinetics slow_end(const Kinetics& kinetics) {
    return at_end(kinetics, &Kinetics::half_life_high_h, &Metabolite::half_life_high_h);
}

}  // namespace evenfall::kinetics
