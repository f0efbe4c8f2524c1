// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "casework/course.h"

namespace evenfall {

/// What speaks for or against an outpatient taper, as far as the record tells.
struct SuitabilityView {
    SuitabilityOutcome suggested = SuitabilityOutcome::outpatient_taper;
    std::vector<Flag> findings;  ///< each a rule of the suitability group with its source
    std::vector<Flag> missing;   ///< what has not been asked or recorded yet (baseline, treatment, screens)

    bool operator==(const SuitabilityView&) const = default;
};

/// The gate before any plan. It suggests; a prescriber signs.
SuitabilityView assess_suitability(const PatientRecord& record, const Formulary& formulary,
                                   const Rules& rules, Day today);

}  // namespace evenfall
