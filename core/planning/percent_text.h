// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>

#include "units/share.h"

namespace evenfall::planning {

/// Two shares as percent beside each other, with as many decimals as it takes (one to six, trailing zeros
/// dropped) for the printed numbers to stand to each other as the shares do: 10.02 % is never said to be over
/// a cap of 10 % as "10 %".
std::pair<std::string, std::string> percents_apart(const Share& one, const Share& other);

}  // namespace evenfall::planning
