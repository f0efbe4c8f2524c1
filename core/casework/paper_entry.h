// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "record/changes.h"

namespace evenfall {

/// The entry of a paper that left the room, or nothing where it is not noted. Only a schedule whose signed
/// steps run is: it is followed at home, and what the next one replaces. `valid_through` is the last day that
/// it covers, empty where no signed step runs.
std::optional<PaperIssued> paper_entry(PaperIssued left, std::optional<Day> valid_through);

}  // namespace evenfall
