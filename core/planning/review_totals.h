// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "planning/review.h"

namespace evenfall::planning {

/// What a schedule says of whole days: `total-rises`, `redistributed` (the same amount shared otherwise),
/// `step-interval` (a cut sooner after the one before than the rule allows), `start-in-past`,
/// `two-agents-fall` (several agents cut in one step, together in diazepam-equivalent) and
/// `no-equivalence` (the total cannot be judged). `steps` are those of the review, one for each entry.
std::vector<Finding> review_totals(const ReviewInput& input, const std::vector<ReviewedStep>& steps,
                                   const std::vector<std::string>& agents, const Formulary& formulary,
                                   const Rules& rules);

}  // namespace evenfall::planning
