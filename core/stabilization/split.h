// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "planning/pieces.h"

namespace evenfall::stabilization {

/// A daily amount shared among dose times as evenly as the pieces allow: the least sum of squared distances
/// from an equal share, exactly, what rounding leaves over going to the later dose times. Nothing where the
/// products cannot make it.
std::optional<std::vector<Dose>> split_evenly(Dose total, int doses, const PieceTable& table);

}  // namespace evenfall::stabilization
