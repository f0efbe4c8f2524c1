// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "formulary/drug.h"
#include "units/result.h"

namespace evenfall {

/// What is known of the agents: a value, loaded once and passed on.
struct Formulary {
    std::string version;
    std::map<std::string, Drug> drugs;      ///< by generic name
    std::map<std::string, Source> sources;  ///< by id

    /// The drug, or null.
    const Drug* find(std::string_view drug) const;
};

/// Reads and checks a formulary file. All faults are reported, each with its place in the file.
Result<Formulary> load_formulary(const std::filesystem::path& file);
Result<Formulary> parse_formulary(std::string_view text, std::string_view file_name);

/// An amount of an agent as diazepam, to the nearest microgram, at least, usual and most.
struct DiazepamRange {
    Dose least;
    Dose usual;
    Dose most;

    bool operator==(const DiazepamRange&) const = default;
};

/// REQUIRES an equivalence with positive values.
DiazepamRange as_diazepam(Dose amount, const Equivalence& equivalence);
DiazepamRange operator+(const DiazepamRange& a, const DiazepamRange& b);

/// The longest half-life among the parent and the active metabolites (potency above zero), in hours, at the
/// model's middle value.
double slowest_half_life_h(const Kinetics& kinetics);

/// Whether an amount looks like a 1000-fold slip (micrograms written as milligrams or the reverse) against
/// what the agent is used at: over five times the label's maximum while a thousandth of it would be a dose
/// (at least a quarter of the least piece), over a hundred times the maximum, or under a twentieth of the
/// least piece. People who take very much of an agent are not taken for a slip. Never for an agent without
/// products.
bool looks_like_unit_slip(const Drug& drug, Dose daily_amount);

}  // namespace evenfall
