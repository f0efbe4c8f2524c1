// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/share.h"

#include <numeric>
#include <stdexcept>

namespace evenfall {
namespace {
__extension__ using Wide = __int128;
}

Share Share::of(std::int64_t numerator, std::int64_t denominator) {
    if (denominator == 0) throw std::domain_error("a share of nothing");
    const std::int64_t divisor = std::gcd(numerator, denominator);
    Share share;
    share.numerator_ = numerator / divisor;
    share.denominator_ = denominator / divisor;
    if (share.denominator_ < 0) {
        share.numerator_ = -share.numerator_;
        share.denominator_ = -share.denominator_;
    }
    return share;
}

Share Share::cut(Dose from, Dose to) {
    return of((from - to).ng(), from.ng());
}

std::strong_ordering operator<=>(const Share& a, const Share& b) {
    const Wide left = static_cast<Wide>(a.numerator_) * b.denominator_;
    const Wide right = static_cast<Wide>(b.numerator_) * a.denominator_;
    if (left < right) return std::strong_ordering::less;
    if (left > right) return std::strong_ordering::greater;
    return std::strong_ordering::equal;
}

std::string print_percent(const Share& share, bool always_decimal) {
    const bool negative = share.numerator() < 0;
    const Wide magnitude = negative ? -static_cast<Wide>(share.numerator()) : share.numerator();
    const Wide tenths =
        (magnitude * 2000 + share.denominator()) / (static_cast<Wide>(2) * share.denominator());
    const auto whole = static_cast<std::int64_t>(tenths / 10);
    const auto tenth = static_cast<std::int64_t>(tenths % 10);
    std::string text = (negative && tenths != 0 ? "-" : "") + std::to_string(whole);
    if (tenth != 0 || always_decimal) text += "." + std::to_string(tenth);
    return text;
}

}  // namespace evenfall
