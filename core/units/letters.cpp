// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/letters.h"

#include <algorithm>
#include <cctype>

namespace evenfall {

std::string in_lower_case(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char sign) {
        return sign < 0x80 ? static_cast<char>(std::tolower(sign)) : static_cast<char>(sign);
    });
    return text;
}

std::string with_dashes(std::string words) {
    std::ranges::replace(words, ' ', '-');
    return words;
}

}  // namespace evenfall
