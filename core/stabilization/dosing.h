// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "stabilization/check.h"

namespace evenfall::stabilization {

/// What every part of the check reads.
struct Context {
    const StabilizationInput& input;
    const Formulary& formulary;
    const Rules& rules;
    const Zone& zone;
    ClockTime begins;  ///< of the diary day

    const Intake& intake(std::size_t i) const { return input.diary.intake[i]; }
};

/// The diary laid against what was intended.
struct Dosing {
    DoseTimes source = DoseTimes::none;
    std::vector<DatedRegimen> held_against;
    std::vector<DayRow> rows;
    std::string unit;
    std::map<std::string, double> factor;     ///< by agent: mg to `unit`
    std::vector<std::string> unknown_agents;  ///< not in the formulary
    bool found_before_given = false;  ///< days before the first given regimen were held against a found one
};

/// Whether an entry's amount counts in the measures. A likely slip is still a dose taken at its time.
inline bool counts(const RowEntry& entry) {
    return entry.match != EntryMatch::duplicate && entry.match != EntryMatch::slip;
}

/// Whether the entry at this place belongs to the same intended dose as an earlier one of the row: a dose
/// written down piece by piece.
bool is_later_part(const DayRow& row, std::size_t entry);

/// The regimen in force on a diary day, or null before the first.
const Regimen* regimen_on(const std::vector<DatedRegimen>& regimens, Day day);

/// By entry of the diary: likely a 1000-fold slip, against the agent's usual range or the diary's own usual
/// amount.
std::vector<bool> likely_slips(const Context& context);

/// Finds or takes the intended dose times and matches every day's entries to them.
Dosing match_diary(const Context& context);

}  // namespace evenfall::stabilization
