// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "casework/course.h"

namespace evenfall {

/// The first day that what was last counted at home cannot cover, going by the pieces of the course: later
/// steps are counted as they are planned, the last stretch goes on. Empty where nothing was counted, or what
/// is counted has no pieces in the course, or it lasts more than a year.
std::optional<Day> supply_runs_out(const PatientRecord& record, const Course& course);

}  // namespace evenfall
