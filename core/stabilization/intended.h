// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/dosing.h"

namespace evenfall::stabilization {

/// The intended regimens in order of day. Days before the first one given are held against the usual regimen
/// that their own entries show; `found` says whether there was one.
std::vector<DatedRegimen> intended_regimens(const Context& context, const std::vector<DiaryDay>& days,
                                            const std::vector<bool>& slips, bool& found);

}  // namespace evenfall::stabilization
