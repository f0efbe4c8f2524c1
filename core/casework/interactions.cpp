// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/interactions.h"

#include <algorithm>

#include "formulary/medicine_name.h"

namespace evenfall {

bool is_listed_medicine(const std::string& typed, std::string_view list, const Rules& rules) {
    const Rule* rule = rules.find(list);
    return rule && std::ranges::any_of(rule->values,
                                       [&](const auto& each) { return names_medicine(typed, each.first); });
}

const Interaction* interaction_with(const Drug& drug, const std::string& typed) {
    const auto named = [&](const std::string& name) { return names_medicine(typed, name); };
    const auto found = std::ranges::find_if(drug.interactions, [&](const Interaction& each) {
        return std::ranges::any_of(each.examples, named);
    });
    return found == drug.interactions.end() ? nullptr : &*found;
}

std::vector<Met> interactions_of(const PatientRecord& record, const Course& course,
                                 const Formulary& formulary, const Rules& rules) {
    std::vector<Met> met;
    if (!record.other_medicines || !course.today) return met;
    for (const OtherMedicine& medicine : record.other_medicines->value.medicines) {
        const std::string& name = medicine.name;
        if (is_listed_medicine(name, "opioid-medicines", rules)) {
            met.push_back({name, course.drug, "breathing can stop", true});
            continue;
        }
        for (const std::string& agent : agents_of(*course.today)) {
            const Drug* drug = formulary.find(agent);
            const Interaction* known = drug ? interaction_with(*drug, name) : nullptr;
            if (known) met.push_back({name, agent, known->effect, false});
        }
        if (is_listed_medicine(name, "sedative-medicines", rules) &&
            std::ranges::find(met, name, &Met::medicine) == met.end())
            met.push_back({name, course.drug, "adds to its sedation", false});
    }
    return met;
}

}  // namespace evenfall
