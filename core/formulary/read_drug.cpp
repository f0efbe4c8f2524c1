// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/read_drug.h"

namespace evenfall::formulary_file {
namespace {

using nlohmann::json;

constexpr int kMostDosesPerDay = 24;

void read_class(StrictObject& object, Drug& drug) {
    if (!object.text("class", drug.drug_class)) return;
    if (drug.drug_class != "benzodiazepine" && drug.drug_class != "z-drug")
        object.fault("class", "formulary-class", {{"text", drug.drug_class.substr(0, 60)}});
}

void read_doses_per_day(StrictObject& object, DosesPerDay& target, const SourceTable& sources,
                        Faults& faults) {
    const json* value = object.find("doses_per_day", Need::must);
    if (!value) return;
    StrictObject inner(*value, object.place("doses_per_day"), faults);
    const bool low = inner.whole("usual_low", target.usual_low, 1, kMostDosesPerDay);
    const bool high = inner.whole("usual_high", target.usual_high, 1, kMostDosesPerDay);
    const bool most = inner.whole("most", target.most, 1, kMostDosesPerDay);
    const bool rising = target.usual_low <= target.usual_high && target.usual_high <= target.most;
    if (low && high && most && !rising) object.fault("doses_per_day", "formulary-doses-order");
    read_provenance(inner, sources, target.provenance);
}

Interaction read_interaction(const json& value, const std::string& place, const SourceTable& sources,
                             Faults& faults) {
    Interaction interaction;
    StrictObject object(value, place, faults);
    object.text("mechanism", interaction.mechanism);
    object.text("effect", interaction.effect);
    object.texts("examples", interaction.examples, Need::may);
    read_provenance(object, sources, interaction.provenance);
    return interaction;
}

Fact read_fact(const json& value, const std::string& place, const SourceTable& sources, Faults& faults) {
    Fact fact;
    StrictObject object(value, place, faults);
    object.text("group", fact.group);
    object.text("label", fact.label);
    object.text("value", fact.value);
    read_provenance(object, sources, fact.provenance);
    return fact;
}

void read_products(StrictObject& object, Drug& drug, const SourceTable& sources, Faults& faults) {
    object.list("products", [&](const json& each, const std::string& where) {
        drug.products.push_back(read_product(each, where, drug.name, sources, faults));
    });
}

void read_reference_page(StrictObject& object, Drug& drug, const SourceTable& sources, Faults& faults) {
    object.list(
        "interactions",
        [&](const json& each, const std::string& where) {
            drug.interactions.push_back(read_interaction(each, where, sources, faults));
        },
        Need::may);
    object.list(
        "facts",
        [&](const json& each, const std::string& where) {
            drug.facts.push_back(read_fact(each, where, sources, faults));
        },
        Need::may);
}

}  // namespace

Drug read_drug(const std::string& name, const json& value, const std::string& place,
               const SourceTable& sources, Faults& faults) {
    Drug drug;
    drug.name = name;
    StrictObject object(value, place, faults);
    if (!object.is_object()) return drug;
    read_class(object, drug);
    object.yes_or_no("hypnotic", drug.hypnotic, Need::may);
    object.yes_or_no("glucuronidated", drug.glucuronidated, Need::may);
    read_products(object, drug, sources, faults);
    if (const json* found = object.find("equivalence"))
        drug.equivalence = read_equivalence(*found, object.place("equivalence"), sources, faults);
    if (const json* found = object.find("kinetics", Need::must))
        drug.kinetics = read_kinetics(*found, object.place("kinetics"), name, sources, faults);
    read_doses_per_day(object, drug.doses_per_day, sources, faults);
    object.amount_mg("label_maximum_mg", drug.label_maximum, Need::may);
    object.text("missed_dose_rule", drug.missed_dose_rule);
    read_reference_page(object, drug, sources, faults);
    return drug;
}

}  // namespace evenfall::formulary_file
