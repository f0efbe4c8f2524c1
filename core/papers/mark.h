// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "papers/document.h"
#include "record/event.h"

namespace evenfall::papers {

/// What a paper's mark names: the version by its code, and the signed plan by its identity in the record. It
/// holds nothing of the patient.
struct MarkText {
    std::string code;
    EventId plan;  ///< 32 hexadecimal digits; empty where only a code was typed

    bool operator==(const MarkText&) const = default;
};

/// The text of a mark, in the characters that a QR Code holds most densely: "EVENFALL:1:76GT-XJMV:0123…".
std::string write_mark(const MarkText& says);

/// Reads what was scanned from a paper, or a code as it was typed. Nothing where it is neither, or where its
/// check character does not fit.
std::optional<MarkText> read_mark(std::string_view scanned_or_typed);

/// The symbol of a text: a QR Code (ISO/IEC 18004) with error correction level M, which reads with a seventh
/// of it spoilt. Throws std::length_error where the text is longer than any symbol.
Mark mark_of(const std::string& text);

}  // namespace evenfall::papers
