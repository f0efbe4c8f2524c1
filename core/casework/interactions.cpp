// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/interactions.h"

#include <algorithm>
#include <cctype>

namespace evenfall {
namespace {

std::string lower(std::string text) {
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

/// Whether `name` stands in `typed` as a word of its own.
bool holds(const std::string& typed, const std::string& name) {
    return (" " + lower(typed) + " ").find(" " + lower(name) + " ") != std::string::npos;
}

bool is_listed(const std::string& typed, const std::string& list, const Rules& rules) {
    const Rule* rule = rules.find(list);
    return rule &&
           std::ranges::any_of(rule->values, [&](const auto& each) { return holds(typed, each.first); });
}

const Interaction* known_to(const Drug& drug, const std::string& typed) {
    for (const Interaction& each : drug.interactions)
        if (std::ranges::any_of(each.examples, [&](const std::string& name) { return holds(typed, name); }))
            return &each;
    return nullptr;
}

}  // namespace

std::vector<Met> interactions_of(const PatientRecord& record, const Course& course,
                                 const Formulary& formulary, const Rules& rules) {
    std::vector<Met> met;
    if (!record.other_medicines || !course.today) return met;
    for (const OtherMedicine& medicine : record.other_medicines->value.medicines) {
        const std::string& name = medicine.name;
        if (is_listed(name, "opioid-medicines", rules)) {
            met.push_back({name, course.drug, "breathing can stop", true});
            continue;
        }
        for (const std::string& agent : agents_of(*course.today)) {
            const Drug* drug = formulary.find(agent);
            const Interaction* known = drug ? known_to(*drug, name) : nullptr;
            if (known) met.push_back({name, agent, known->effect, false});
        }
        if (is_listed(name, "sedative-medicines", rules) &&
            std::ranges::find(met, name, &Met::medicine) == met.end())
            met.push_back({name, course.drug, "adds to its sedation", false});
    }
    return met;
}

}  // namespace evenfall
