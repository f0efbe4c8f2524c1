// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/day.h"

#include <gtest/gtest.h>

#include "units/zone.h"

namespace evenfall {
namespace {

TEST(Day, ReadsRealDatesOnly) {
    EXPECT_TRUE(parse_day("2028-02-29", ""));
    EXPECT_EQ(parse_day("2027-02-29", "").faults().front().id, "day-not-in-calendar");
    EXPECT_EQ(parse_day("1899-12-31", "").faults().front().id, "day-out-of-range");
    EXPECT_EQ(parse_day("01/02/2027", "").faults().front().id, "day-not-a-date");
    EXPECT_EQ(print_day(*parse_day("2026-12-01", "")), "2026-12-01");
}

TEST(Day, ReadsLocalTimesWithTAndWithSpace) {
    EXPECT_EQ(parse_local_time("2026-12-01T08:05", "").value(),
              parse_local_time("2026-12-01 08:05:00", "").value());
    EXPECT_EQ(print_local_time(*parse_local_time("2026-12-01T08:05:07", "")), "2026-12-01T08:05:07");
    EXPECT_FALSE(parse_local_time("2026-12-01T24:00", ""));
}

TEST(Day, CountsAgeByBirthdays) {
    EXPECT_EQ(age_on(day_at(1968, 4, 2), day_at(2026, 4, 1)), 57);
    EXPECT_EQ(age_on(day_at(1968, 4, 2), day_at(2026, 4, 2)), 58);
    EXPECT_EQ(age_on(day_at(2000, 2, 29), day_at(2027, 2, 28)), 26);
}

TEST(Zone, KnowsDaysOf23And25Hours) {
    const Zone zone = *Zone::named("America/New_York", "");
    EXPECT_EQ(zone.length(day_at(2026, 3, 8)), std::chrono::hours(23));
    EXPECT_EQ(zone.length(day_at(2026, 11, 1)), std::chrono::hours(25));
    EXPECT_EQ(zone.length(day_at(2026, 6, 1)), std::chrono::hours(24));
    EXPECT_EQ(zone.to_instant(*parse_local_time("2026-03-08T02:30", "")).change, ClockChange::skipped);
    EXPECT_EQ(zone.to_instant(*parse_local_time("2026-11-01T01:30", "")).change, ClockChange::twice);
    EXPECT_FALSE(Zone::named("Mars/Olympus", "timezone"));
}

}  // namespace
}  // namespace evenfall
