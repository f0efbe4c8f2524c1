// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "stabilization/measures.h"

namespace evenfall::stabilization {

/// A flag with what it says of the verdict.
struct Finding {
    Flag flag;
    bool forbids_steady =
        false;  ///< a pattern other than a night gap, a likely duplicate, a likely slip or a planned step
};

/// A flag with the entries at these indices of the diary's intake.
Flag flag_of(const Context& context, std::string rule, Args args, const std::vector<std::size_t>& entries);
/// How an intended dose without an entry is named: as an entry, by its intended time, and that it was not
/// written down.
std::string dose_name(const Context& context, Day day, const DoseTime& dose);

/// The named patterns of scheduled use.
std::vector<Finding> patterns(const Context& context, const Dosing& dosing, const Measures& measures);
/// What was counted, with the entries: missed, extra, late doses, long gaps, likely slips and duplicates,
/// entries that cannot be judged.
std::vector<Finding> counted(const Context& context, const Dosing& dosing, const Measures& measures,
                             const std::vector<Interval>& between);

}  // namespace evenfall::stabilization
