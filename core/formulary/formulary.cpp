// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/formulary.h"

#include <algorithm>

#include "formulary/read_drug.h"
#include "model/strict_json.h"

namespace evenfall {
namespace {

using nlohmann::json;

Source read_source(const std::string& id, const json& value, const std::string& place, Faults& faults) {
    Source source;
    source.id = id;
    StrictObject object(value, place, faults);
    object.text("citation", source.citation);
    object.text("address", source.address);
    object.text("date", source.date);
    object.text("kind", source.kind);
    object.text("note", source.note);
    return source;
}

bool is_generic_name(const std::string& name) {
    return !name.empty() &&
           std::all_of(name.begin(), name.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; });
}

Result<Formulary> read(const json& file) {
    Formulary formulary;
    Faults faults;
    {
        StrictObject object(file, "", faults);
        object.text("version", formulary.version);
        object.members("sources", [&](const std::string& id, const json& value, const std::string& place) {
            formulary.sources[id] = read_source(id, value, place, faults);
        });
        object.members("drugs", [&](const std::string& name, const json& value, const std::string& place) {
            if (!is_generic_name(name))
                faults.push_back({"formulary-drug-name", place, {{"text", name.substr(0, 60)}}});
            formulary.drugs[name] = formulary_file::read_drug(name, value, place, formulary.sources, faults);
        });
    }
    if (!faults.empty()) return faults;
    return formulary;
}

/// The least amount that one piece of any product of the agent holds.
Dose least_piece(const Drug& drug) {
    Dose least;
    for (const ListedProduct& listed : drug.products) {
        const Product& product = listed.product;
        const std::int64_t parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
        const auto piece = is_liquid(product.form) ? amount_in(product.measure, product.strength)
                                                   : product.strength.part(parts);
        if (piece && !piece->is_zero() && (least.is_zero() || *piece < least)) least = *piece;
    }
    return least;
}

/// To the nearest microgram, half up. Dose's own arithmetic throws where the product would overflow.
Dose as_diazepam(Dose amount, Dose equal_to_10_mg) {
    constexpr std::int64_t kMicrograms = 10'000;
    const Dose twice = amount * (2 * kMicrograms) + equal_to_10_mg;
    return Dose::micrograms(twice.ng() / (2 * equal_to_10_mg.ng()));
}

}  // namespace

const Drug* Formulary::find(std::string_view drug) const {
    const auto found = drugs.find(std::string(drug));
    return found == drugs.end() ? nullptr : &found->second;
}

Result<Formulary> load_formulary(const std::filesystem::path& file) {
    const auto parsed = load_strict_json(file);
    if (!parsed) return parsed.faults();
    return read(*parsed);
}

Result<Formulary> parse_formulary(std::string_view text, std::string_view file_name) {
    const auto parsed = parse_strict_json(text, file_name);
    if (!parsed) return parsed.faults();
    return read(*parsed);
}

DiazepamRange as_diazepam(Dose amount, const Equivalence& equivalence) {
    return {as_diazepam(amount, equivalence.least_diazepam), as_diazepam(amount, equivalence.usual),
            as_diazepam(amount, equivalence.most_diazepam)};
}

DiazepamRange operator+(const DiazepamRange& a, const DiazepamRange& b) {
    return {a.least + b.least, a.usual + b.usual, a.most + b.most};
}

double slowest_half_life_h(const Kinetics& kinetics) {
    double slowest = kinetics.half_life_h;
    for (const Metabolite& metabolite : kinetics.metabolites)
        if (metabolite.relative_potency > 0) slowest = std::max(slowest, metabolite.half_life_h);
    return slowest;
}

bool looks_like_unit_slip(const Drug& drug, Dose daily_amount) {
    const Dose piece = least_piece(drug);
    if (piece.is_zero() || daily_amount.is_zero()) return false;
    const Dose most = drug.label_maximum;
    const bool a_thousandth_is_a_dose = daily_amount * 4 >= piece * 1000;
    const bool too_large =
        !most.is_zero() && ((daily_amount > most * 5 && a_thousandth_is_a_dose) || daily_amount > most * 100);
    return too_large || daily_amount * 20 < piece;
}

}  // namespace evenfall
