// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "casework/caseload.h"
#include "response/response.h"

namespace evenfall {

/// What the record says for the reading of the response: steps that were signed and have begun, regimens as
/// taken, diary, calls and forms. Forms that cannot be scored are left out.
ResponseInput response_input(const PatientRecord& record, const Course& course, const Ground& ground,
                             LocalTime as_of);

/// The whole reading.
ResponseView response_of(const PatientRecord& record, const Course& course, const Ground& ground,
                         LocalTime as_of);

}  // namespace evenfall
