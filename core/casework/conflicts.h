// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "casework/desk.h"

namespace evenfall {

/// What two laptops did to one person's record before they met, and only a person can settle.
struct Conflict {
    PatientId patient;
    std::string reference;
    Flag flag;  ///< `plans-conflict`, `call-twice`, `reference-twice`

    bool operator==(const Conflict&) const = default;
};

/// All that are open, in the order of the caseload, also those that are put off. Records that cannot be read
/// are passed over and named in `faults`.
std::vector<Conflict> conflicts_of(Desk& desk, LocalTime as_of, Faults& faults);

}  // namespace evenfall
