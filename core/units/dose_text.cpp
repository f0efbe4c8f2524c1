// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/dose_text.h"

#include <cctype>
#include <cstdlib>

namespace evenfall {
namespace {

constexpr std::int64_t kMillion = 1'000'000;
constexpr std::int64_t kMostWhole = 100'000;  // 100 g or 100 L: no amount that a person takes comes near
constexpr int kDecimals = 6;

Fault fault(std::string id, std::string_view place, std::string_view text) {
    std::string shown(text.substr(0, 40));
    for (char& c : shown)
        if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    return {std::move(id), std::string(place), {{"text", shown}}};
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Plain decimal digits as millionths.
Result<std::int64_t> parse_millionths(std::string_view text, std::string_view place) {
    if (text.empty()) return fault("amount-empty", place, text);
    if (text.find(',') != std::string_view::npos) return fault("amount-comma", place, text);
    if (text.front() == '-' || text.front() == '+') return fault("amount-sign", place, text);
    if (text.front() == '.') return fault("amount-bare-point", place, text);
    if (text.back() == '.') return fault("amount-bare-point", place, text);
    std::int64_t whole = 0;
    std::size_t at = 0;
    for (; at < text.size() && is_digit(text[at]); ++at) {
        whole = whole * 10 + (text[at] - '0');
        if (whole > kMostWhole) return fault("amount-enormous", place, text);
    }
    std::int64_t millionths = 0;
    if (at < text.size() && text[at] == '.') {
        ++at;
        int decimals = 0;
        for (; at < text.size() && is_digit(text[at]); ++at) {
            const int digit = text[at] - '0';
            if (decimals < kDecimals) {
                millionths = millionths * 10 + digit;
                ++decimals;
            } else if (digit != 0) {
                return fault("amount-too-fine", place, text);
            }
        }
        for (; decimals < kDecimals; ++decimals) millionths *= 10;
    }
    if (at != text.size()) return fault("amount-not-a-number", place, text);
    return whole * kMillion + millionths;
}

std::string print_millionths(std::int64_t millionths, bool with_commas) {
    const bool negative = millionths < 0;
    const auto magnitude =
        negative ? 0 - static_cast<std::uint64_t>(millionths) : static_cast<std::uint64_t>(millionths);
    std::string whole = std::to_string(magnitude / kMillion);
    if (with_commas)
        for (int at = static_cast<int>(whole.size()) - 3; at > 0; at -= 3)
            whole.insert(static_cast<std::size_t>(at), ",");
    std::string decimals = std::to_string(magnitude % kMillion);
    decimals.insert(0, static_cast<std::size_t>(kDecimals) - decimals.size(), '0');
    while (!decimals.empty() && decimals.back() == '0') decimals.pop_back();
    return (negative ? "-" : "") + whole + (decimals.empty() ? "" : "." + decimals);
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

}  // namespace

Result<Dose> parse_mg(std::string_view text, std::string_view place) {
    auto millionths = parse_millionths(text, place);
    if (!millionths) return millionths.faults();
    return Dose::nanograms(*millionths);
}

Result<Dose> parse_dose(std::string_view text, std::string_view place) {
    text = trimmed(text);
    if (text.empty()) return fault("amount-empty", place, text);
    std::size_t end = 0;
    while (end < text.size() && (is_digit(text[end]) || text[end] == '.' || text[end] == ',' ||
                                 text[end] == '-' || text[end] == '+'))
        ++end;
    const std::string_view digits = text.substr(0, end);
    const std::string_view unit = trimmed(text.substr(end));
    if (digits.empty()) return fault("amount-not-a-number", place, text);
    auto millionths = parse_millionths(digits, place);
    if (!millionths) return millionths.faults();
    if (unit.empty()) return fault("amount-no-unit", place, text);
    if (unit == "mg") return Dose::nanograms(*millionths);
    if (unit == "mcg" || unit == "microgram" || unit == "micrograms") {
        if (*millionths % 1000 != 0) return fault("amount-too-fine", place, text);
        return Dose::nanograms(*millionths / 1000);
    }
    if (unit == "ug" || unit == "µg" || unit == "μg") return fault("amount-micro-sign", place, text);
    return fault("amount-wrong-unit", place, text);
}

Result<Volume> parse_ml(std::string_view text, std::string_view place) {
    auto millionths = parse_millionths(text, place);
    if (!millionths) return millionths.faults();
    return Volume::nanolitres(*millionths);
}

Result<Share> parse_percent(std::string_view text, std::string_view place) {
    auto millionths = parse_millionths(text, place);
    if (!millionths) return millionths.faults();
    return Share::of(*millionths, 100 * kMillion);
}

std::string print_mg_digits(Dose dose) {
    return print_millionths(dose.ng(), false);
}

std::string print_dose(Dose dose) {
    return print_millionths(dose.ng(), true) + " mg";
}

std::string print_ml_digits(Volume volume) {
    return print_millionths(volume.nl(), false);
}

std::string print_volume(Volume volume) {
    return print_millionths(volume.nl(), true) + " mL";
}

}  // namespace evenfall
