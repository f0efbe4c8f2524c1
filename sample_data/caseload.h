// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/caseload_file.h"
#include "formulary/formulary.h"
#include "rules/rules.h"

namespace evenfall::sample {

/// What was invented, and whom the desk or the planner refused, with the reasons.
struct Invented {
    CaseloadFile caseload;
    std::vector<std::string> refused;
};

/// The invented caseload, the same every time.
Invented invent_caseload(const Formulary& formulary, const Rules& rules);

}  // namespace evenfall::sample
