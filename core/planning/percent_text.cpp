// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/percent_text.h"

#include <compare>
#include <cstdint>

namespace evenfall::planning {

namespace {

__extension__ using Wide = __int128;

/// Per cent in units of the last decimal, rounded half away from zero.
std::int64_t rounded(const Share& share, std::int64_t per_whole) {
    const bool negative = share.numerator() < 0;
    const Wide magnitude = negative ? -Wide{share.numerator()} : Wide{share.numerator()};
    const auto units = static_cast<std::int64_t>((magnitude * 200 * per_whole + share.denominator()) /
                                                 (Wide{2} * share.denominator()));
    return negative ? -units : units;
}

std::string digits(std::int64_t units, int decimals) {
    const bool negative = units < 0;
    std::string text = std::to_string(negative ? -units : units);
    const auto places = static_cast<std::size_t>(decimals);
    if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
    text.insert(text.size() - places, ".");
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return (negative ? "-" : "") + text;
}

}  // namespace

std::pair<std::string, std::string> percents_apart(const Share& one, const Share& other) {
    constexpr int kMostDecimals = 6;
    std::int64_t per_whole = 10;
    for (int decimals = 1;; ++decimals, per_whole *= 10) {
        const std::int64_t a = rounded(one, per_whole), b = rounded(other, per_whole);
        if ((a <=> b) == (one <=> other) || decimals == kMostDecimals)
            return {digits(a, decimals), digits(b, decimals)};
    }
}

}  // namespace evenfall::planning
