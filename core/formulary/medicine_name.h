// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace evenfall {

/// Whether a medicine's name stands in what was typed ("Oxycodone, 5 mg at night") as a word of its own:
/// large and small letters are the same, and any sign but a letter or a digit ends a word.
bool names_medicine(std::string_view typed, std::string_view name);

}  // namespace evenfall
