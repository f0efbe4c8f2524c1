// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "casework/caseload.h"

namespace evenfall {

/// What two laptops did to one person's record before they met, and only a person can settle.
struct Conflict {
    PatientId patient;
    std::string reference;
    Flag flag;  ///< `plans-conflict`, `call-twice`, `reference-twice`

    bool operator==(const Conflict&) const = default;
};

/// All that are open among lines of the caseload, in their order, also those that are put off.
std::vector<Conflict> conflicts_of(const std::vector<CaseloadLine>& lines);

}  // namespace evenfall
