// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "casework/course.h"
#include "planning/pieces.h"

namespace evenfall {

/// The first day that what was last counted at home cannot cover, going by the pieces of the course: later
/// steps are counted as they are planned, the last stretch goes on. Empty where nothing was counted, or what
/// is counted has no pieces in the course, or it lasts more than a year.
std::optional<Day> supply_runs_out(const PatientRecord& record, const Course& course);

/// What was last counted at home on `day` or before it; nothing where no count is so old. The record outlives
/// the result.
const SupplyCounted* last_count(const PatientRecord& record, Day day);

/// What is left at home on the morning of `day` of what was last counted until then, had the doses of the
/// course been taken since. Doses without pieces are made of what was counted. Empty where nothing was
/// counted.
std::vector<OnHand> on_hand_on(const PatientRecord& record, const Course& course, Day day,
                               const PieceWeights& weights);

}  // namespace evenfall
