// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace evenfall {

/// The text with its letters A to Z small; all other signs stay as they are.
std::string in_lower_case(std::string text);
/// A word of the program as ids have it: "weak liver" is "weak-liver".
std::string with_dashes(std::string words);

}  // namespace evenfall
