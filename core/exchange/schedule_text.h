// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "formulary/formulary.h"
#include "model/regimen.h"

namespace evenfall {

/// A schedule made elsewhere, as text. Either the `schedule` of a case file as JSON (the list alone, or an
/// object that has it), or one entry a line:
///
///     2026-12-01; 08:00 1 mg clonazepam, 21:00 1.5 mg clonazepam
///
/// a day, a semicolon, and the doses of that day parted by commas or semicolons: time, amount with its unit,
/// agent. A day without doses says that nothing is taken. Blank lines and lines that begin with # are left
/// out.
///
/// Every fault names its line ("line 3"): `schedule-line`, `schedule-line-drug`, `schedule-too-long`, those
/// of `units`, and for JSON those of the case file.
Result<std::vector<DatedRegimen>> read_schedule_text(std::string_view text, const Formulary& formulary);

/// A schedule as lines that are read back the same.
std::string write_schedule_text(const std::vector<DatedRegimen>& schedule);

}  // namespace evenfall
