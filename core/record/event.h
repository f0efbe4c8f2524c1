// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>

#include "record/body.h"
#include "units/day.h"

namespace evenfall {

/// 16 random bytes as 32 lower-case hexadecimal digits.
using EventId = std::string;
using PatientId = std::string;
using UserId = std::string;
using LogId = std::string;

/// What happened, as it is written: never changed afterwards. What `kind` and `version` mean for `body`
/// stands in `record/changes.h`; a format that shipped stays readable.
struct Event {
    EventId id;
    PatientId patient;  ///< empty for what concerns the clinic as a whole
    std::string kind;   ///< "regimen-recorded", "plan-committed", …
    int version = 1;
    Body body;

    bool operator==(const Event&) const = default;
};

/// Who wrote an event, when, and where in which log. `clock` is a hybrid logical clock: microseconds since
/// 1970 (UTC), never smaller than any clock seen before. The fold's order is (clock, log, sequence).
struct Stamp {
    LogId log;
    std::int64_t sequence = 0;  ///< from 1 within its log
    std::int64_t clock = 0;
    UserId author;
    Instant at{};  ///< the machine's clock when it was written

    bool operator==(const Stamp&) const = default;
};

/// An event as a store holds it.
struct StoredEvent {
    Stamp stamp;
    Event event;
    /// Why it does not count, judged by the grants when it was read (`record/users.h`); empty if it counts.
    std::string void_reason{};

    bool operator==(const StoredEvent&) const = default;
};

}  // namespace evenfall
