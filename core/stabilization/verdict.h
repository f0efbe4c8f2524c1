// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/patterns.h"

namespace evenfall::stabilization {

/// The verdict on the dosing by the rules' limits, with the flags that made it at the front of `flags`.
Verdict judge(const Context& context, const Dosing& dosing, const Measures& measures,
              const std::vector<Finding>& found, std::vector<Flag>& flags);

}  // namespace evenfall::stabilization
