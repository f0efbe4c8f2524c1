// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/code.h"

#include <cctype>
#include <cstdint>

namespace evenfall::papers {
namespace {

constexpr std::size_t kDrawn = 7;  // characters before the check character

/// FNV-1a, 64 bits (offset basis and prime as its authors publish them).
std::uint64_t hash_of(std::string_view text) {
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char c : text) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 1099511628211ULL;
    }
    return hash;
}

/// The character that makes the sum of position × value divisible by 23. The weights are different and not
/// zero, so a changed character or a swapped pair changes the sum.
char check_character(std::string_view drawn) {
    std::size_t sum = 0;
    for (std::size_t i = 0; i < kDrawn; ++i) sum += (i + 2) * kCodeAlphabet.find(drawn[i]);
    const std::size_t size = kCodeAlphabet.size();
    return kCodeAlphabet[(size - sum % size) % size];
}

}  // namespace

std::string paper_code(std::string_view version) {
    std::uint64_t rest = hash_of(version);
    std::string drawn;
    for (std::size_t i = 0; i < kDrawn; ++i) {
        drawn += kCodeAlphabet[rest % kCodeAlphabet.size()];
        rest /= kCodeAlphabet.size();
    }
    drawn += check_character(drawn);
    return drawn.insert(4, "-");
}

std::string read_paper_code(std::string_view typed) {
    std::string code;
    for (const char c : typed) {
        if (c == '-' || c == ' ') continue;
        const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        if (kCodeAlphabet.find(upper) == std::string_view::npos || code.size() > kDrawn) return {};
        code += upper;
    }
    if (code.size() != kDrawn + 1 || check_character(code) != code.back()) return {};
    return code.insert(4, "-");
}

}  // namespace evenfall::papers
