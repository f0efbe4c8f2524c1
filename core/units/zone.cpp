// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/zone.h"

#include <stdexcept>

#include <date/tz.h>

namespace evenfall {
namespace {

const date::time_zone& entry_of(const void* entry) {
    return *static_cast<const date::time_zone*>(entry);
}

date::local_seconds as_library(LocalTime time) {
    return date::local_seconds(time.time_since_epoch());
}

}  // namespace

Result<Zone> Zone::named(std::string_view name, std::string_view place) {
    try {
        return Zone(std::string(name), date::locate_zone(std::string(name)));
    } catch (const std::exception&) {
        return Fault{"zone-unknown", std::string(place), {{"text", std::string(name.substr(0, 60))}}};
    }
}

Zone Zone::of_machine() {
    try {
        const auto* zone = date::current_zone();
        return Zone(zone->name(), zone);
    } catch (const std::exception&) {
        return Zone("Etc/UTC", date::locate_zone("Etc/UTC"));
    }
}

ZonedTime Zone::to_instant(LocalTime time) const {
    const date::local_info info = entry_of(entry_).get_info(as_library(time));
    const Instant instant(time.time_since_epoch() - info.first.offset);
    switch (info.result) {
        case date::local_info::nonexistent:
            return {instant, ClockChange::skipped};
        case date::local_info::ambiguous:
            return {instant, ClockChange::twice};
        default:
            return {instant, ClockChange::none};
    }
}

LocalTime Zone::to_local(Instant instant) const {
    return LocalTime(entry_of(entry_).to_local(instant).time_since_epoch());
}

std::chrono::seconds Zone::length(Day day) const {
    return to_instant(LocalTime(day + std::chrono::days(1))).instant - to_instant(LocalTime(day)).instant;
}

}  // namespace evenfall
