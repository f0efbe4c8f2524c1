// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/paper_entry.h"

namespace evenfall {

std::optional<PaperIssued> paper_entry(PaperIssued left, std::optional<Day> valid_through) {
    if (left.paper != "schedule" || !valid_through) return std::nullopt;
    left.valid_through = *valid_through;
    return left;
}

}  // namespace evenfall
