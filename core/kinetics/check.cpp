// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>

namespace evenfall::kinetics {
namespace {

// What the model takes. The limits are far outside any agent by mouth: what is beyond them is a slip of the
// pen.
struct Limits {
    double low, high;
};
constexpr Limits kAbsorption{0.01, 100}, kHalfLife{0.05, 2000}, kLag{0, 24}, kExchange{1e-4, 100};
constexpr Limits kFraction{0, 1}, kBioavailability{0.001, 1}, kPotency{0, 100};
// Shares are decimals from a file: 0.7 + 0.2 + 0.1 may print as 1 and be a hair above it.
constexpr double kRoundingOfShares = 1e-9;

std::string number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.12g", value);
    return text;
}

class Check {
  public:
    explicit Check(std::string_view place) : place_(place.empty() ? "" : std::string(place) + ".") {}

    void add(const char* id, const std::string& field, Args args) {
        faults_.push_back({id, place_ + field, std::move(args)});
    }
    bool number_within(const std::string& field, double value, Limits limits) {
        if (value >= limits.low && value <= limits.high) return true;  // false for what is not a number
        add("kinetics-number", field,
            {{"value", number(value)}, {"low", number(limits.low)}, {"high", number(limits.high)}});
        return false;
    }
    /// A middle value and its range; no range is both ends zero.
    void half_life(const std::string& field, double middle, double low, double high) {
        bool numbers = number_within(field + "half_life_h", middle, kHalfLife);
        if (low == 0 && high == 0) return;
        numbers = number_within(field + "half_life_low_h", low, kHalfLife) && numbers;
        numbers = number_within(field + "half_life_high_h", high, kHalfLife) && numbers;
        if (numbers && (low > middle || middle > high))
            add("kinetics-range", field + "half_life_h",
                {{"value", number(middle)}, {"low", number(low)}, {"high", number(high)}});
    }
    Faults take() { return std::move(faults_); }

  private:
    std::string place_;
    Faults faults_;
};

void check_distribution(const Kinetics& kinetics, Check& check) {
    if (!kinetics.distribution) return;
    const auto [to, back] = *kinetics.distribution;
    const bool rates = check.number_within("distribution.to_tissue_per_h", to, kExchange) &
                       check.number_within("distribution.back_per_h", back, kExchange);
    const double shortest = kinetics.half_life_low_h > 0 ? kinetics.half_life_low_h : kinetics.half_life_h;
    const double least = std::numbers::ln2 / back, terminal = std::numbers::ln2 / shortest;
    const bool solvable = shortest > least && terminal * (1 + to / (back - terminal)) <= kExchange.high;
    if (rates && shortest > 0 && !solvable)
        check.add("kinetics-tissue", "half_life_h", {{"value", number(shortest)}, {"low", number(least)}});
}

void check_metabolite(const Metabolite& metabolite, const std::string& field, Check& check) {
    check.half_life(field, metabolite.half_life_h, metabolite.half_life_low_h, metabolite.half_life_high_h);
    check.number_within(field + "formed_fraction", metabolite.formed_fraction, kFraction);
    check.number_within(field + "relative_potency", metabolite.relative_potency, kPotency);
}

/// Each is formed from the parent or from one named before it, under a name of its own.
void check_names(const Kinetics& kinetics, std::string_view drug, Check& check) {
    std::vector<std::string> known{std::string(drug)};
    const auto is_known = [&](const std::string& name) {
        return std::find(known.begin(), known.end(), name) != known.end();
    };
    for (std::size_t i = 0; i < kinetics.metabolites.size(); ++i) {
        const Metabolite& metabolite = kinetics.metabolites[i];
        const std::string field = "metabolites[" + std::to_string(i) + "].";
        if (!is_known(metabolite.from))
            check.add("kinetics-metabolite-from", field + "from", {{"value", metabolite.from}});
        if (metabolite.name.empty() || is_known(metabolite.name))
            check.add("kinetics-metabolite-name", field + "name", {{"value", metabolite.name}});
        known.push_back(metabolite.name);
    }
}

/// More than all of what leaves a species cannot become metabolites.
void check_fractions(const Kinetics& kinetics, Check& check) {
    std::map<std::string, double> formed;
    for (const Metabolite& metabolite : kinetics.metabolites)
        formed[metabolite.from] += metabolite.formed_fraction;
    for (const auto& [from, sum] : formed)
        if (sum > 1 + kRoundingOfShares)
            check.add("kinetics-fractions", "metabolites", {{"from", from}, {"value", number(sum)}});
}

}  // namespace

Faults check_constants(const Kinetics& kinetics, std::string_view drug, std::string_view place) {
    Check check(place);
    check.number_within("absorption_half_life_h", kinetics.absorption_half_life_h, kAbsorption);
    check.number_within("lag_h", kinetics.lag_h, kLag);
    check.half_life("", kinetics.half_life_h, kinetics.half_life_low_h, kinetics.half_life_high_h);
    check.number_within("bioavailability", kinetics.bioavailability, kBioavailability);
    check_distribution(kinetics, check);
    if (kinetics.metabolites.size() > 3)
        check.add("kinetics-metabolites", "metabolites",
                  {{"value", std::to_string(kinetics.metabolites.size())}});
    for (std::size_t i = 0; i < kinetics.metabolites.size(); ++i)
        check_metabolite(kinetics.metabolites[i], "metabolites[" + std::to_string(i) + "].", check);
    check_names(kinetics, drug, check);
    check_fractions(kinetics, check);
    return check.take();
}

}  // namespace evenfall::kinetics
