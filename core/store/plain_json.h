// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace evenfall {

/// Whether a text is JSON of the plain kind that nearly every entry is: no white space between its parts,
/// strings of ASCII without a backslash, numbers of few digits without an exponent, nested at most 64 deep.
/// It never says so of a text that the library would refuse; of any other text the library is to be asked.
bool is_plain_json(std::string_view text);

}  // namespace evenfall
