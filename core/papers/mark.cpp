// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/mark.h"

#include <algorithm>
#include <cctype>
#include <memory>
#include <stdexcept>

#include <qrencode.h>

#include "papers/code.h"
#include "units/letters.h"

namespace evenfall::papers {
namespace {

constexpr std::string_view kBegin = "EVENFALL:1:";
constexpr std::size_t kCode = 9;   // characters, the hyphen included
constexpr std::size_t kPlan = 32;  // hexadecimal digits

std::string in_capitals(std::string_view text) {
    std::string upper(text);
    for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return upper;
}

std::string trimmed(std::string_view text) {
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.front()))) text.remove_prefix(1);
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back()))) text.remove_suffix(1);
    return std::string(text);
}

}  // namespace

std::string write_mark(const MarkText& says) {
    return std::string(kBegin) + says.code + ":" + in_capitals(says.plan);
}

std::optional<MarkText> read_mark(std::string_view scanned_or_typed) {
    const std::string text = in_capitals(trimmed(scanned_or_typed));
    if (!text.starts_with(kBegin)) {
        std::string code = read_paper_code(text);
        return code.empty() ? std::nullopt : std::optional(MarkText{std::move(code), {}});
    }
    const std::string rest = text.substr(kBegin.size());
    if (rest.size() != kCode + 1 + kPlan || rest[kCode] != ':') return std::nullopt;
    MarkText says{read_paper_code(rest.substr(0, kCode)), rest.substr(kCode + 1)};
    const bool digits = std::ranges::all_of(
        says.plan, [](char c) { return std::isxdigit(static_cast<unsigned char>(c)) != 0; });
    if (says.code.empty() || !digits) return std::nullopt;
    says.plan = in_lower_case(std::move(says.plan));
    return says;
}

Mark mark_of(const std::string& text) {
    constexpr int kSmallest = 0;  // as small a symbol as holds the text
    constexpr int kCaseMatters = 1;
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> symbol(
        QRcode_encodeString(text.c_str(), kSmallest, QR_ECLEVEL_M, QR_MODE_8, kCaseMatters), &QRcode_free);
    if (!symbol) throw std::length_error("no symbol holds this text");
    Mark mark{text, symbol->width, {}, {}};
    const auto modules = static_cast<std::size_t>(symbol->width) * static_cast<std::size_t>(symbol->width);
    for (std::size_t i = 0; i < modules; ++i) mark.modules.push_back((symbol->data[i] & 1U) != 0);
    return mark;
}

}  // namespace evenfall::papers
