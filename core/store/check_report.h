// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <set>
#include <vector>

#include "record/event.h"
#include "units/result.h"

namespace evenfall {

/// What `Store::check` found. A fault's place is "<log> <sequence>", or the table that it concerns.
struct CheckReport {
    std::int64_t rows = 0;            ///< rows in all logs
    std::int64_t sound = 0;           ///< rows whose seal, hash and links hold
    std::int64_t signatures = 0;      ///< signatures verified; one covers the rows written together
    Faults damage;                    ///< `row-…`, `head-missing`, `file-…`: see resources/texts
    std::vector<StoredEvent> voided;  ///< sound events that do not count, with the reason
    std::int64_t forks = 0;           ///< rows kept beside because two files told different stories
    std::set<PatientId> hurt;         ///< patients of whom something is damaged, where that can be known
    std::set<PatientId> readable;     ///< patients of whom something can be read
    bool complete = true;             ///< false if `progress` ended it early

    bool whole() const { return complete && damage.empty(); }
};

}  // namespace evenfall
