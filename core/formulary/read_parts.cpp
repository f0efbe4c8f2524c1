// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "formulary/read_drug.h"
#include "units/dose_text.h"

namespace evenfall::formulary_file {
namespace {

using nlohmann::json;

/// An amount above zero.
bool read_amount(StrictObject& object, std::string_view key, Dose& target) {
    if (!object.amount_mg(key, target)) return false;
    if (target.is_zero()) object.fault(key, "formulary-amount-zero");
    return !target.is_zero();
}

void read_strength(StrictObject& object, Product& product) {
    const bool liquid = is_liquid(product.form);
    const auto key = liquid ? "strength_mg_per_ml" : "strength_mg";
    const auto other = liquid ? "strength_mg" : "strength_mg_per_ml";
    if (object.find(other))
        object.fault(other, "formulary-strength", {{"expected", key}, {"form", word(product.form)}});
    read_amount(object, key, product.strength);
}

bool may_be_cut(Form form) {
    return form == Form::tablet || form == Form::orally_disintegrating_tablet;
}

void read_cuts(StrictObject& object, Product& product) {
    object.word("cuts", product.cuts);
    if (product.cuts != Cuts::whole && !may_be_cut(product.form))
        object.fault("cuts", "formulary-cannot-cut",
                     {{"form", word(product.form)}, {"cuts", word(product.cuts)}});
    const std::int64_t parts = product.cuts == Cuts::quarters ? 4 : product.cuts == Cuts::halves ? 2 : 1;
    if (!product.strength.part(parts))
        object.fault("cuts", "formulary-cut-too-fine",
                     {{"strength", print_dose(product.strength)}, {"cuts", word(product.cuts)}});
}

void read_measure(StrictObject& object, Product& product) {
    const bool liquid = is_liquid(product.form);
    const bool read = object.volume_ml("measure_ml", product.measure, Need::may);
    if (liquid != object.has("measure_ml") || (read && product.measure.is_zero()))
        object.fault("measure_ml", "formulary-measure", {{"form", word(product.form)}});
}

PublishedEquivalence read_published(const json& value, const std::string& place, const SourceTable& sources,
                                    Faults& faults) {
    PublishedEquivalence published;
    StrictObject object(value, place, faults);
    const bool low = read_amount(object, "low_mg", published.low);
    const bool high = read_amount(object, "high_mg", published.high);
    if (low && high && published.low > published.high)
        object.fault("low_mg", "formulary-equivalence-order",
                     {{"low", print_dose(published.low)}, {"high", print_dose(published.high)}});
    object.text("as_printed", published.as_printed, Need::may);
    object.text("kind", published.kind);
    read_provenance(object, sources, published.provenance);
    return published;
}

}  // namespace

void read_provenance(StrictObject& object, const SourceTable& sources, Provenance& target) {
    if (object.text("source", target.source) && !sources.contains(target.source))
        object.fault("source", "formulary-source-unknown", {{"source", target.source.substr(0, 60)}});
    object.yes_or_no("from_memory", target.from_memory, Need::may);
    object.text("note", target.note, Need::may);
}

void read_provenance_at(StrictObject& object, std::string_view key, const SourceTable& sources,
                        Provenance& target, Faults& faults) {
    const json* value = object.find(key, Need::must);
    if (!value) return;
    StrictObject inner(*value, object.place(key), faults);
    read_provenance(inner, sources, target);
}

bool read_range(StrictObject& object, std::string_view key, double& low, double& high, Faults& faults) {
    const json* value = object.find(key, Need::must);
    if (!value) return false;
    const bool numbers =
        value->is_array() && value->size() == 2 && (*value)[0].is_number() && (*value)[1].is_number();
    if (numbers && (*value)[0].get<double>() > 0 && (*value)[0].get<double>() <= (*value)[1].get<double>()) {
        low = (*value)[0].get<double>();
        high = (*value)[1].get<double>();
        return true;
    }
    faults.push_back({"formulary-range-order", object.place(key), {}});
    return false;
}

ListedProduct read_product(const json& value, const std::string& place, const std::string& drug,
                           const SourceTable& sources, Faults& faults) {
    ListedProduct listed;
    listed.product.drug = drug;
    StrictObject object(value, place, faults);
    object.word("form", listed.product.form);
    read_strength(object, listed.product);
    read_cuts(object, listed.product);
    read_measure(object, listed.product);
    object.text("scored", listed.scored, Need::may);
    object.text("cutting", listed.cutting, Need::may);
    object.text("device", listed.device, Need::may);
    object.yes_or_no("for_steps", listed.for_steps, Need::may);
    object.text("code", listed.code, Need::may);
    read_provenance_at(object, "strength_from", sources, listed.strength, faults);
    read_provenance_at(object, "cutting_from", sources, listed.cutting_provenance, faults);
    return listed;
}

Equivalence read_equivalence(const json& value, const std::string& place, const SourceTable& sources,
                             Faults& faults) {
    Equivalence equivalence;
    StrictObject object(value, place, faults);
    const bool usual = read_amount(object, "usual_mg", equivalence.usual);
    const bool least = read_amount(object, "least_diazepam_mg", equivalence.least_diazepam);
    const bool most = read_amount(object, "most_diazepam_mg", equivalence.most_diazepam);
    const bool rising =
        equivalence.most_diazepam <= equivalence.usual && equivalence.usual <= equivalence.least_diazepam;
    if (usual && least && most && !rising)
        object.fault("usual_mg", "formulary-equivalence-ends",
                     {{"most", print_dose(equivalence.most_diazepam)},
                      {"usual", print_dose(equivalence.usual)},
                      {"least", print_dose(equivalence.least_diazepam)}});
    object.text("usual_source", equivalence.usual_source);
    object.list("published", [&](const json& each, const std::string& where) {
        equivalence.published.push_back(read_published(each, where, sources, faults));
    });
    return equivalence;
}

}  // namespace evenfall::formulary_file
