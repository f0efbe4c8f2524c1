// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <vector>

#include "model/plan.h"
#include "planning/pieces.h"

namespace evenfall::planning {

/// Gives the doses of `drug` that stay as they were the pieces that they had in `before`, so that nobody has
/// to learn new tablets where nothing is reduced: all of them, else one after the other, as long as the day's
/// burden grows by no more than `allowed` for each dose that keeps its pieces. Pieces of products that are no
/// longer among `products` are not kept.
void keep_pieces(std::vector<PlannedDose>& doses, const std::vector<PlannedDose>& before,
                 const std::string& drug, std::span<const Product> products, const PieceWeights& weights,
                 int allowed);

}  // namespace evenfall::planning
