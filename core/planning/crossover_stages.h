// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "planning/crossover.h"
#include "planning/pieces.h"

namespace evenfall::planning {

/// The amount of `to` that does what `amount` of `from` does by the usual equivalences, to the nanogram.
Dose converted(Dose amount, const Equivalence& from, const Equivalence& to);

/// The dose times of the old agent in the order in which they are replaced (see CrossoverInput::order). A
/// dose before 04:00 belongs to the evening before.
std::vector<DoseTime> replaced_in_order(const CrossoverInput& input);

/// The stages of one way across, without the flags for the person. REQUIRES checked input. Faults:
/// `crossover-old-not-makeable`, `crossover-new-not-makeable`. Nothing where `portion` is half and no dose
/// time can be halved.
Result<std::vector<CrossoverStage>> lay_stages(const CrossoverInput& input, Portion portion,
                                               int days_per_stage, const Formulary& formulary,
                                               const Rules& rules);

}  // namespace evenfall::planning
