// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <numbers>
#include <random>
#include <string>

#include "kinetics/levels.h"

// Constants for the tests, and random ones.

namespace evenfall::kinetics {

inline double half_life(double per_h) {
    return std::numbers::ln2 / per_h;
}

/// Absorption and elimination in 1/h, nothing else.
inline Kinetics one_compartment(double absorption_per_h, double elimination_per_h) {
    Kinetics kinetics;
    kinetics.absorption_half_life_h = half_life(absorption_per_h);
    kinetics.half_life_h = half_life(elimination_per_h);
    return kinetics;
}

inline Metabolite metabolite(std::string name, std::string from, double fraction, double half_life_h,
                             double potency = 1) {
    Metabolite result;
    result.name = std::move(name);
    result.from = std::move(from);
    result.formed_fraction = fraction;
    result.half_life_h = half_life_h;
    result.relative_potency = potency;
    return result;
}

/// A long-lived agent with tissue and a chain of two metabolites: the worked example of the case file.
inline Kinetics long_lived() {
    Kinetics kinetics;
    kinetics.absorption_half_life_h = 0.5;
    kinetics.half_life_h = 43;
    kinetics.half_life_low_h = 20;
    kinetics.half_life_high_h = 70;
    kinetics.distribution = Distribution{0.9, 0.4};
    kinetics.metabolites = {metabolite("nordiazepam", "diazepam", 1, 100, 1),
                            metabolite("oxazepam", "nordiazepam", 1, 8, 0.3)};
    return kinetics;
}

inline Model model_of(const Kinetics& kinetics, const std::string& drug = "drug") {
    auto model = Model::make(kinetics, drug);
    if (!model) throw std::runtime_error(model.faults().front().id + " " + model.faults().front().place);
    return *model;
}

/// Random constants over the whole span of agents by mouth, with tissue, chains and side-by-side metabolites.
class RandomKinetics {
  public:
    explicit RandomKinetics(unsigned seed) : engine_(seed) {}

    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
    }
    double log_between(double low, double high) { return low * std::pow(high / low, between(0, 1)); }
    std::size_t below(std::size_t n) { return static_cast<std::size_t>(engine_() % n); }

    Kinetics constants() {
        Kinetics kinetics;
        kinetics.absorption_half_life_h = log_between(0.1, 6);
        kinetics.half_life_h = log_between(1, 150);
        kinetics.lag_h = below(2) == 0 ? 0 : between(0, 1.5);
        kinetics.bioavailability = between(0.3, 1);
        if (below(2) == 0) kinetics.distribution = Distribution{log_between(0.05, 2), log_between(0.8, 3)};
        const std::size_t metabolites = below(4);
        for (std::size_t i = 0; i < metabolites; ++i) {
            const std::size_t from = below(i + 1);
            kinetics.metabolites.push_back(
                metabolite("m" + std::to_string(i), from == 0 ? "drug" : "m" + std::to_string(from - 1),
                           between(0.05, 0.33), log_between(1, 300), between(0, 1.5)));
        }
        return kinetics;
    }

    /// A dosing of some days with everything that happens: missed, extra, late, doubled, two at one instant.
    std::vector<TimedDose> dosing(double days) {
        std::vector<TimedDose> doses;
        for (double day = 0; day < days; ++day)
            for (const double at : {8.0, 14.25, 22.0}) {
                if (below(6) == 0) continue;
                const double late = below(3) == 0 ? between(0, 4) : 0;
                doses.push_back({24 * day + at + late, between(0.1, 5)});
                if (below(8) == 0) doses.push_back(doses.back());
            }
        return doses;
    }

  private:
    std::mt19937_64 engine_;
};

}  // namespace evenfall::kinetics
