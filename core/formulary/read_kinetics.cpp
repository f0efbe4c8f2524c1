// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "formulary/read_drug.h"

namespace evenfall::formulary_file {
namespace {

using nlohmann::json;

constexpr NumberLimits kShare{0, 1, false};
constexpr NumberLimits kShareAboveZero{0, 1, true};

void read_half_life(StrictObject& object, double& middle, double& low, double& high, Faults& faults) {
    const bool number = object.number("half_life_h", middle, kAboveZero);
    const bool range = read_range(object, "half_life_range_h", low, high, faults);
    if (number && range && (middle < low || middle > high))
        object.fault("half_life_h", "formulary-half-life-outside");
}

Metabolite read_metabolite(const json& value, const std::string& place, const SourceTable& sources,
                           Faults& faults) {
    Metabolite metabolite;
    StrictObject object(value, place, faults);
    object.text("name", metabolite.name);
    object.text("from", metabolite.from);
    object.number("formed_fraction", metabolite.formed_fraction, kShare);
    read_half_life(object, metabolite.half_life_h, metabolite.half_life_low_h, metabolite.half_life_high_h,
                   faults);
    object.number("relative_potency", metabolite.relative_potency, kZeroAndUp);
    read_provenance(object, sources, metabolite.provenance);
    return metabolite;
}

/// Each metabolite is formed from the parent or from one that stands before it, so a chain has no ring.
void check_chain(const std::vector<Metabolite>& metabolites, const std::string& drug,
                 const std::string& place, Faults& faults) {
    std::vector<std::string> known = {drug};
    for (std::size_t i = 0; i < metabolites.size(); ++i) {
        const std::string where = place + ".metabolites[" + std::to_string(i) + "]";
        const auto is_known = [&](const std::string& name) {
            return std::find(known.begin(), known.end(), name) != known.end();
        };
        if (!is_known(metabolites[i].from))
            faults.push_back({"formulary-metabolite-unknown",
                              where + ".from",
                              {{"from", metabolites[i].from.substr(0, 60)},
                               {"nearest", nearest_word(metabolites[i].from, known)}}});
        if (is_known(metabolites[i].name))
            faults.push_back({"formulary-metabolite-twice",
                              where + ".name",
                              {{"name", metabolites[i].name.substr(0, 60)}}});
        known.push_back(metabolites[i].name);
    }
}

void read_distribution(StrictObject& object, Kinetics& kinetics, Faults& faults) {
    const json* value = object.find("distribution");
    if (!value) return;
    Distribution distribution;
    StrictObject inner(*value, object.place("distribution"), faults);
    inner.number("to_tissue_per_h", distribution.to_tissue_per_h, kAboveZero);
    inner.number("back_per_h", distribution.back_per_h, kAboveZero);
    kinetics.distribution = distribution;
}

void read_field_provenance(StrictObject& object, Kinetics& kinetics, const SourceTable& sources,
                           Faults& faults) {
    std::vector<std::string> fields = {"absorption_half_life_h", "lag_h", "half_life_h", "half_life_range_h",
                                       "bioavailability"};
    if (kinetics.distribution) fields.emplace_back("distribution");
    const json* value = object.find("provenance", Need::must);
    if (!value) return;
    StrictObject inner(*value, object.place("provenance"), faults);
    if (!inner.is_object()) return;
    for (const std::string& field : fields)
        read_provenance_at(inner, field, sources, kinetics.provenance[field], faults);
}

}  // namespace

Kinetics read_kinetics(const json& value, const std::string& place, const std::string& drug,
                       const SourceTable& sources, Faults& faults) {
    Kinetics kinetics;
    StrictObject object(value, place, faults);
    if (!object.is_object()) return kinetics;
    object.number("absorption_half_life_h", kinetics.absorption_half_life_h, kAboveZero);
    object.number("lag_h", kinetics.lag_h, kZeroAndUp, Need::may);
    read_half_life(object, kinetics.half_life_h, kinetics.half_life_low_h, kinetics.half_life_high_h, faults);
    object.number("bioavailability", kinetics.bioavailability, kShareAboveZero);
    read_distribution(object, kinetics, faults);
    object.list(
        "metabolites",
        [&](const json& each, const std::string& where) {
            kinetics.metabolites.push_back(read_metabolite(each, where, sources, faults));
        },
        Need::may, kMostMetabolites);
    check_chain(kinetics.metabolites, drug, place, faults);
    read_field_provenance(object, kinetics, sources, faults);
    return kinetics;
}

}  // namespace evenfall::formulary_file
