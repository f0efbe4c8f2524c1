// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "casework/course.h"

namespace evenfall {

/// A medicine that was entered and that the formulary knows to act on the agent, or to add to it.
struct Met {
    std::string medicine;  ///< as it was typed
    std::string agent;
    std::string effect;  ///< the formulary's words
    bool opioid = false;

    bool operator==(const Met&) const = default;
};

/// Whether what was typed names a medicine of a rule's list: `opioid-medicines`, `sedative-medicines`.
bool is_listed_medicine(const std::string& typed, std::string_view list, const Rules& rules);
/// The first interaction of an agent whose examples name what was typed; null where the formulary knows none.
const Interaction* interaction_with(const Drug& drug, const std::string& typed);

/// What the medicines entered do beside the agents taken. A medicine is known where a name of rule
/// `opioid-medicines` or `sedative-medicines`, or an example of the formulary, is a word of what was typed.
std::vector<Met> interactions_of(const PatientRecord& record, const Course& course,
                                 const Formulary& formulary, const Rules& rules);

}  // namespace evenfall
