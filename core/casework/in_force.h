// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formulary/formulary.h"
#include "planning/price.h"
#include "record/patient_record.h"
#include "rules/rules.h"

namespace evenfall {

/// The shipped formulary with a clinic's own products and usual equivalences laid over it.
Formulary formulary_in_force(Formulary shipped, const ClinicRecord& clinic);

/// The shipped rules with a clinic's own values laid over them. A value that no longer fits is left out.
Rules rules_in_force(Rules shipped, const ClinicRecord& clinic);

/// The prices that the clinic entered last; a product whose price was taken back has none.
Prices prices_in_force(const ClinicRecord& clinic);

}  // namespace evenfall
