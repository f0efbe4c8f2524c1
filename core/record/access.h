// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

#include "record/event.h"

namespace evenfall {

/// Events that say who opened whose record. They lie under a name of their own, so that no patient's record
/// grows by being read.
inline constexpr std::string_view kRecordOpened = "record-opened";
inline constexpr std::string_view kAccessLog = "access log";

/// One line of the access log: the stamp's author opened a patient's record at the stamp's instant.
struct Access {
    Stamp stamp;
    PatientId patient;

    bool operator==(const Access&) const = default;
};

/// The event that notes an opening.
Event record_opened(const PatientId& patient);
/// Lines of the access log, in the order in which they were written; what is void or unreadable is left out.
std::vector<Access> accesses_of(const std::vector<StoredEvent>& events);

}  // namespace evenfall
