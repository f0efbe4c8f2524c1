// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "units/day.h"

namespace evenfall {

/// How a local time stands to a zone's clock on that day.
enum class ClockChange {
    none,     ///< the time came once
    skipped,  ///< the clock was put forward over it: it never was
    twice     ///< the clock was put back over it: it came twice, and the first is taken
};

/// A local time placed in a zone.
struct ZonedTime {
    Instant instant;
    ClockChange change = ClockChange::none;
};

/// A named zone of the system's time-zone database ("America/New_York").
class Zone {
  public:
    /// Fault: `zone-unknown`.
    static Result<Zone> named(std::string_view name, std::string_view place);
    /// The machine's own zone, UTC where it cannot be told.
    static Zone of_machine();

    const std::string& name() const { return name_; }
    ZonedTime to_instant(LocalTime time) const;
    LocalTime to_local(Instant instant) const;
    /// How long the civil day lasts: 23, 24 or 25 hours where clocks change by an hour.
    std::chrono::seconds length(Day day) const;

  private:
    explicit Zone(std::string name, const void* entry) : name_(std::move(name)), entry_(entry) {}
    std::string name_;
    const void* entry_;  // date::time_zone; owned by the library's database for the life of the program
};

}  // namespace evenfall
