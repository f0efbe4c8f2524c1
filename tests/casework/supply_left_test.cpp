// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/supply_left.h"

#include <gtest/gtest.h>

// What is at home on a day, reckoned from what was counted.

namespace evenfall {
namespace {

using std::chrono::days;

const Product kTablet{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}};
const Day kToday = day_at(2027, 1, 4);

PatientRecord counted(const std::vector<std::pair<Day, int>>& counts) {
    PatientRecord record;
    for (const auto& [on, quarters] : counts)
        record.supply.push_back({"", {}, SupplyCounted{on, {{kTablet, quarters, {}}}}});
    return record;
}

TEST(SupplyLeft, ACountOfALaterDayIsNotKnownYet) {
    const PatientRecord record = counted({{kToday + days(14), 160}});
    EXPECT_EQ(last_count(record, kToday), nullptr);
    EXPECT_TRUE(on_hand_on(record, Course{}, kToday, {}).empty());
    EXPECT_EQ(on_hand_on(record, Course{}, kToday + days(14), {}).front().quarters, 160);
}

TEST(SupplyLeft, TheNewestCountUntilThenHoldsInWhateverOrderTheyWereWritten) {
    const PatientRecord record =
        counted({{kToday - days(2), 40}, {kToday - days(9), 200}, {kToday + days(1), 8}});
    EXPECT_EQ(last_count(record, kToday)->on, kToday - days(2));
    EXPECT_EQ(on_hand_on(record, Course{}, kToday, {}).front().quarters, 40);
    EXPECT_EQ(last_count(record, kToday - days(3))->on, kToday - days(9));
}

TEST(SupplyLeft, OfTwoCountsOfOneDayTheLaterEntryHolds) {
    const PatientRecord record = counted({{kToday, 40}, {kToday, 36}});
    EXPECT_EQ(on_hand_on(record, Course{}, kToday, {}).front().quarters, 36);
}

TEST(SupplyLeft, WhatTheCourseTookSinceIsNotThereAnyMore) {
    const PatientRecord record = counted({{kToday - days(3), 40}});
    Course course;
    Stretch stretch;
    stretch.from = kToday - days(30);
    stretch.doses = {
        {{8 * 60}, "diazepam", Dose::milligrams(1), {}}};  // half a tablet, made of what was counted
    course.stretches = {stretch};
    EXPECT_EQ(on_hand_on(record, course, kToday, {}).front().quarters, 34);
}

}  // namespace
}  // namespace evenfall
