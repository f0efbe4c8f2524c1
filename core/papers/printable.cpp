// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdint>

#include "papers/wording.h"

namespace evenfall::papers {
namespace {

/// The code point that begins at `at`, and its length; a byte that begins none counts as one character
/// U+FFFD.
std::pair<std::uint32_t, std::size_t> code_point(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(at);
    if (first < 0x80) return {first, 1};
    const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return {0xFFFD, 1};
    std::uint32_t point = first & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(at + i) & 0xC0) != 0x80) return {0xFFFD, 1};
        point = point << 6 | (byte(at + i) & 0x3FU);
    }
    return {point, length};
}

bool is_control(std::uint32_t point) {
    return point < 0x20 || (point >= 0x7F && point < 0xA0);
}

/// Marks that set or change the direction of text, and others that have no width (Unicode general category
/// Cf).
bool is_invisible_mark(std::uint32_t point) {
    return point == 0x061C || point == 0x180E || (point >= 0x200B && point <= 0x200F) ||
           (point >= 0x2028 && point <= 0x202E) || (point >= 0x2060 && point <= 0x206F) || point == 0xFEFF ||
           (point >= 0xFFF9 && point <= 0xFFFB) || (point >= 0xE0000 && point <= 0xE007F);
}

}  // namespace

std::string printable(std::string_view text) {
    std::string safe;
    for (std::size_t at = 0; at < text.size();) {
        const auto [point, length] = code_point(text, at);
        const bool space = point == ' ' || point == '\t' || point == '\n' || point == '\r';
        if (space && !safe.empty() && safe.back() != ' ')
            safe += ' ';
        else if (point == 0xFFFD && length == 1)
            safe += "\xEF\xBF\xBD";
        else if (!space && !is_control(point) && !is_invisible_mark(point))
            safe += text.substr(at, length);
        at += length;
    }
    while (!safe.empty() && safe.back() == ' ') safe.pop_back();
    return safe;
}

std::size_t character_count(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); ++count) at += code_point(text, at).second;
    return count;
}

}  // namespace evenfall::papers
