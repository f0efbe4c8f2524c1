// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "exchange/case.h"
#include "record/patient_record.h"

namespace evenfall {

/// What a case says, as changes of a record: for pictures and papers made from a case file. `plan` is the
/// case's plan as computed; its committed steps stand as agreed. A case without a name or reference is named
/// after its file.
std::vector<Change> changes_of(const Case& given, const std::optional<Plan>& plan,
                               const std::string& file_name);

/// A record as a case, so that the command line computes the same from a store's patient. The plan in force
/// gives the request; the regimen is the one before it.
Case case_of(const PatientRecord& record, const Clinic& clinic, const Prescriber& prescriber,
             LocalTime as_of);

}  // namespace evenfall
