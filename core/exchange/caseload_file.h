// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/event.h"
#include "units/day.h"
#include "units/result.h"

namespace evenfall {

/// An invented caseload as it is kept in sample_data: the events of a clinic and its patients, told as of a
/// day. An event keeps its id where the file gives one, so that a commitment can name the one it replaces.
struct CaseloadFile {
    LocalTime as_of{};
    std::vector<Event> events;

    bool operator==(const CaseloadFile&) const = default;
};

/// Reads a caseload file, one of our own. Fault: `caseload-shape`.
Result<CaseloadFile> read_caseload(std::string_view text, std::string_view file_name);

/// One event a line, so that a change of one shows as one.
std::string write_caseload(const CaseloadFile& caseload);

/// The same caseload told as of another day: every date in it moves by the same number of days, so that what
/// is due today or ends tomorrow still does.
CaseloadFile told_as_of(CaseloadFile caseload, LocalTime now);

}  // namespace evenfall
