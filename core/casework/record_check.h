// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "casework/course.h"
#include "record/patient_record.h"
#include "stabilization/check.h"

namespace evenfall {

/// What the stabilization check rests on, taken from a record. Intended is what the course asked for on each
/// day: regimens as recorded, committed steps and holds; the outlook asks for nothing. `judged_days` counts
/// back from `as_of`; empty: the whole diary.
StabilizationInput check_input_of(const PatientRecord& record, const Course& course, LocalTime as_of,
                                  std::optional<int> judged_days = {});

/// How many days back are judged unless someone asks for others (rule `judged-days`).
int usual_judged_days(const Rules& rules);

}  // namespace evenfall
