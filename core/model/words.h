// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace evenfall {

/// The words by which the values of an enumeration are known in files and commands. An enumeration offers its
/// table by specialising `Words<E>::table`; the same word stands in code, file and (in English) on the
/// screen.
template <class E>
struct Words;

template <class E>
concept Worded = requires {
    Words<E>::table;
};

/// The word for a value. REQUIRES that the table names it.
template <Worded E>
std::string word(E value) {
    for (const auto& [each, text] : Words<E>::table)
        if (each == value) return std::string(text);
    return {};
}

/// The value that a word names, if any.
template <Worded E>
std::optional<E> from_word(std::string_view text) {
    for (const auto& [each, name] : Words<E>::table)
        if (name == text) return each;
    return std::nullopt;
}

/// All words, joined by ", ", for a message that says what was expected.
template <Worded E>
std::string all_words() {
    std::string joined;
    for (const auto& [each, text] : Words<E>::table)
        joined += (joined.empty() ? "" : ", ") + std::string(text);
    return joined;
}

template <class E>
using WordPair = std::pair<E, std::string_view>;

}  // namespace evenfall
