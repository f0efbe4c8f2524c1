// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace evenfall::papers {

/// The characters of a paper's code: none that is taken for another by eye or by ear over the telephone (no 0
/// O Q, 1 I L, 2 Z, 5 S, 8 B, U). Their number, 23, is a prime, so that the check character notices every
/// single wrong character and every two that were swapped.
inline constexpr std::string_view kCodeAlphabet = "34679ACDEFGHJKMNPRTVWXY";

/// The short code that a paper bears: two groups of four characters ("4F7K-X2MC"), the last one a check
/// character. It is drawn from `version` (the id of the plan's commitment), so that the same version always
/// has the same code. It names a version; it proves nothing about who printed it.
std::string paper_code(std::string_view version);

/// A code as someone typed it, in the form in which it is printed: upper case, with its hyphen. Empty where
/// it is not a code or its check character does not fit.
std::string read_paper_code(std::string_view typed);

}  // namespace evenfall::papers
