// SPDX-License-Identifier: GPL-3.0-or-later
#include "formulary/medicine_name.h"

#include <algorithm>
#include <cctype>

namespace evenfall {
namespace {

/// Bytes above 127 are parts of letters in UTF-8.
bool is_letter_or_digit(char sign) {
    const auto byte = static_cast<unsigned char>(sign);
    return byte >= 0x80 || std::isalnum(byte) != 0;
}

bool same_letter(char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
}

}  // namespace

bool names_medicine(std::string_view typed, std::string_view name) {
    if (name.empty()) return false;
    for (auto from = typed.begin();; ++from) {
        from = std::search(from, typed.end(), name.begin(), name.end(), same_letter);
        if (from == typed.end()) return false;
        const auto end = from + static_cast<std::ptrdiff_t>(name.size());
        const bool begins = from == typed.begin() || !is_letter_or_digit(*(from - 1));
        const bool ends = end == typed.end() || !is_letter_or_digit(*end);
        if (begins && ends) return true;
    }
}

}  // namespace evenfall
