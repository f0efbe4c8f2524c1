// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "formulary/drug.h"
#include "units/result.h"

namespace evenfall::kinetics {

/// Every fault of a set of constants, none where a model can be made of them; see `Model::make`. `place`
/// stands before the field's name.
Faults check_constants(const Kinetics& kinetics, std::string_view drug, std::string_view place);

}  // namespace evenfall::kinetics
