// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>

#include <nlohmann/json.hpp>

#include "formulary/drug.h"
#include "model/strict_object.h"

// How the parts of a formulary file are read. Each reader appends every fault it meets, with its place.

namespace evenfall::formulary_file {

using SourceTable = std::map<std::string, Source>;

/// Reads the keys `source`, `from_memory` and `note` of an object. Fault: `formulary-source-unknown`.
void read_provenance(StrictObject& object, const SourceTable& sources, Provenance& target);
/// Reads an object that holds a provenance alone.
void read_provenance_at(StrictObject& object, std::string_view key, const SourceTable& sources,
                        Provenance& target, Faults& faults);

/// Reads a pair of numbers above zero, the lower first. Fault: `formulary-range-order`.
bool read_range(StrictObject& object, std::string_view key, double& low, double& high, Faults& faults);

/// Faults: `formulary-cannot-cut`, `formulary-cut-too-fine`, `formulary-measure`, `formulary-strength`.
ListedProduct read_product(const nlohmann::json& value, const std::string& place, const std::string& drug,
                           const SourceTable& sources, Faults& faults);
/// Faults: `formulary-equivalence-order`, `formulary-equivalence-ends`, `formulary-amount-zero`.
Equivalence read_equivalence(const nlohmann::json& value, const std::string& place,
                             const SourceTable& sources, Faults& faults);
/// Faults: `formulary-metabolite-unknown`, `formulary-metabolite-twice`, `formulary-half-life-outside`.
Kinetics read_kinetics(const nlohmann::json& value, const std::string& place, const std::string& drug,
                       const SourceTable& sources, Faults& faults);
/// Faults: those above, `formulary-class`, `formulary-doses-order`.
Drug read_drug(const std::string& name, const nlohmann::json& value, const std::string& place,
               const SourceTable& sources, Faults& faults);

/// The most metabolites that the linear model carries.
inline constexpr std::size_t kMostMetabolites = 3;

}  // namespace evenfall::formulary_file
