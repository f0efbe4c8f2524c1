// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "units/result.h"

namespace evenfall {

/// The clinic's printed key: seven groups of five signs, in each four that carry 20 random bits (140 in all)
/// and one that checks the group and its place. Letters and digits that are easily taken for each other are
/// left out (Crockford's base 32).
std::string make_recovery_key();

/// The 28 signs that count, upper case, from what was typed: spaces, hyphens and case do not matter, O reads
/// as 0, I and L as 1. Faults: `recovery-key-length`, `recovery-key-sign` and `recovery-key-slip`, the latter
/// two naming the group.
Result<std::string> read_recovery_key(std::string_view typed);

}  // namespace evenfall
