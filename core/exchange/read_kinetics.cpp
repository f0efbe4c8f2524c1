// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/read_parts.h"
#include "kinetics/model.h"

namespace evenfall::case_file {
namespace {

constexpr std::size_t kMostMetabolites = 3;

void read_range(StrictObject& object, const Reader& reader, double& low, double& high) {
    const Json* range = object.find("half_life_range_h");
    if (!range) return;
    const bool pair =
        range->is_array() && range->size() == 2 && (*range)[0].is_number() && (*range)[1].is_number();
    if (!pair) return reader.fault(object.place("half_life_range_h"), "case-range-pair");
    low = (*range)[0].get<double>();
    high = (*range)[1].get<double>();
    if (!(low > 0 && low <= high)) reader.fault(object.place("half_life_range_h"), "case-range-order");
}

Metabolite read_metabolite(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    Metabolite metabolite;
    object.text("name", metabolite.name);
    object.text("from", metabolite.from);
    object.number("formed_fraction", metabolite.formed_fraction, {0, 1, false}, Need::may);
    object.number("half_life_h", metabolite.half_life_h, kAboveZero);
    metabolite.half_life_low_h = metabolite.half_life_high_h = metabolite.half_life_h;
    read_range(object, reader, metabolite.half_life_low_h, metabolite.half_life_high_h);
    object.number("relative_potency", metabolite.relative_potency, kZeroAndUp, Need::may);
    return metabolite;
}

}  // namespace

void read_kinetics(const Reader& reader, const std::string& drug, const Json& value,
                   const std::string& place) {
    if (!reader.formulary.find(drug))
        return reader.fault(place, "drug-unknown", {{"text", drug.substr(0, 40)}});
    const std::size_t before = reader.faults.size();
    Kinetics kinetics;
    {
        StrictObject object(value, place, reader.faults);
        object.number("absorption_half_life_h", kinetics.absorption_half_life_h, kAboveZero);
        object.number("lag_h", kinetics.lag_h, {0, 1000, false}, Need::may);
        object.number("half_life_h", kinetics.half_life_h, kAboveZero);
        kinetics.half_life_low_h = kinetics.half_life_high_h = kinetics.half_life_h;
        read_range(object, reader, kinetics.half_life_low_h, kinetics.half_life_high_h);
        object.number("bioavailability", kinetics.bioavailability, {0, 1, true}, Need::may);
        if (const Json* distribution = object.find("distribution");
            distribution && !distribution->is_null()) {
            StrictObject part(*distribution, object.place("distribution"), reader.faults);
            Distribution rates;
            part.number("to_tissue_per_h", rates.to_tissue_per_h, kAboveZero);
            part.number("back_per_h", rates.back_per_h, kAboveZero);
            kinetics.distribution = rates;
        }
        object.list(
            "metabolites",
            [&](const Json& entry, const std::string& at) {
                kinetics.metabolites.push_back(read_metabolite(reader, entry, at));
            },
            Need::may, kMostMetabolites);
    }
    if (reader.faults.size() != before) return;
    auto model = kinetics::Model::make(kinetics, drug, place);
    if (!model) reader.faults.insert(reader.faults.end(), model.faults().begin(), model.faults().end());
    reader.given.kinetics[drug] = std::move(kinetics);
}

}  // namespace evenfall::case_file
