// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "casework/caseload.h"

// How lines of the caseload are kept in the log for a later session: a cache, never a record.

namespace evenfall {

/// One line of text without a line break.
std::string print_line(const CaseloadLine& line);
/// Nothing where the text is none that `print_line` wrote.
std::optional<CaseloadLine> read_line(std::string_view text);

}  // namespace evenfall
