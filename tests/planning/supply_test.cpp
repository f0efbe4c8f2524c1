// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/supply.h"

#include <random>

#include <gtest/gtest.h>

#include "planning/stock.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kStart = day_at(2027, 1, 4);
const Product kTablet{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
const Product kLiquid{"diazepam", Form::oral_solution, Dose::milligrams(1), Cuts::whole,
                      Volume::nanolitres(100'000)};

std::vector<PlannedDose> take(int wholes, int halves, int quarters) {
    PlannedDose dose{{480}, "clonazepam", {}, {}};
    if (wholes) dose.pieces.push_back({kTablet, Cut::whole, wholes, {}});
    if (halves) dose.pieces.push_back({kTablet, Cut::half, halves, {}});
    if (quarters) dose.pieces.push_back({kTablet, Cut::quarter, quarters, {}});
    dose.amount = amount_of(dose.pieces);
    return {dose};
}

SupplyInput input(std::vector<DatedDoses> doses, int day_count, int per_fill, int reserve) {
    return {std::move(doses), kStart, kStart + days(day_count), per_fill, reserve, {}};
}

TEST(Supply, LeftOverHalvesAndQuartersAreUsedBeforeAnotherTabletIsOpened) {
    const auto halves = supply_for(input({{kStart, take(0, 1, 0)}}, 7, 7, 0)).value();
    EXPECT_EQ(halves.fills[0].items[0].units, 4);         // 7 halves open 4 tablets
    EXPECT_EQ(halves.fills[0].left_over[0].quarters, 2);  // one half is left
    const auto quarters = supply_for(input({{kStart, take(0, 0, 3)}}, 4, 4, 0)).value();
    EXPECT_EQ(quarters.fills[0].items[0].units, 3);  // 12 quarters
    EXPECT_TRUE(quarters.fills[0].left_over.empty());
}

TEST(Supply, AFillCoversAHoldOfTheHigherDoseWithTheReserve) {
    // 2 tablets a day for 7 days, then 1: a hold at 2 would need 14 + 14, and 5 days of reserve another 10.
    const auto supply =
        supply_for(input({{kStart, take(2, 0, 0)}, {kStart + days(7), take(1, 0, 0)}}, 14, 14, 5)).value();
    EXPECT_EQ(supply.fills[0].items[0].units, 38);
    EXPECT_EQ(supply.fills[0].covers_hold_until, kStart + days(19));
    EXPECT_EQ(supply.fills[0].left_over[0].quarters, 4 * (38 - 21));
}

// 1.5 tablets a day until the day of the fill, 1.25 from then on: staying on 1.5 for the 28 days and 5 more
// takes 49.5.
TEST(Supply, AFillOnTheDayOfAStepCoversAHoldOfTheDoseBefore) {
    SupplyInput asked = input({{kStart - days(1), take(1, 1, 0)}, {kStart, take(1, 0, 1)}}, 28, 28, 5);
    const auto supply = supply_for(asked).value();
    EXPECT_EQ(supply.fills[0].items[0].units, 50);
    EXPECT_EQ(supply.fills[0].covers_hold_until, kStart + days(33));
}

TEST(Supply, WhatIsAtHomeIsCountedFirst) {
    SupplyInput asked = input({{kStart, take(1, 0, 0)}}, 28, 28, 0);
    asked.on_hand = {{kTablet, 4 * 12, {}}};
    const auto supply = supply_for(asked).value();
    EXPECT_EQ(supply.fills[0].items[0].units, 16);
    EXPECT_EQ(supply.runs_out, kStart + days(12));
    asked.on_hand = {{kTablet, 4 * 28, {}}};
    EXPECT_FALSE(supply_for(asked)->runs_out);
    EXPECT_TRUE(supply_for(asked)->fills[0].items.empty());
}

TEST(Supply, LiquidsAreDispensedInWholeMillilitres) {
    const PlannedDose dose{
        {480}, "diazepam", Dose::micrograms(2300), {{kLiquid, Cut::ml, 1, Volume::nanolitres(2'300'000)}}};
    const auto supply = supply_for(input({{kStart, {dose}}}, 7, 7, 0)).value();
    EXPECT_EQ(supply.fills[0].items[0].volume, Volume::millilitres(17));  // 16.1 mL
    EXPECT_EQ(supply.fills[0].left_over[0].volume, Volume::nanolitres(900'000));
}

TEST(Supply, CostLimitsAndSurplusAreSaid) {
    // One tablet a day for 28 days, with 5 more in reserve; then nothing is taken any more.
    SupplyInput asked = input({{kStart, take(1, 0, 0)}, {kStart + days(28), {}}}, 28, 28, 5);
    asked.limits = {30, 5, 6, 90};
    asked.prices[kTablet] = Price{120'000};
    const auto supply = supply_for(asked).value();
    EXPECT_EQ(supply.fills[0].items[0].units, 33);
    EXPECT_EQ(print_cost(*supply.fills[0].cost), "3.96");
    ASSERT_EQ(supply.fills[0].flags.size(), 1U);
    EXPECT_EQ(supply.fills[0].flags[0].rule, "fill-days");
    EXPECT_EQ(supply.fills[0].flags[0].args.at("days"), "33");
    ASSERT_EQ(supply.surplus.size(), 1U);
    EXPECT_EQ(supply.surplus[0].quarters, 4 * 5);
    asked.limits.most_days = 33;
    asked.prices.clear();
    const auto allowed = supply_for(asked).value();
    EXPECT_TRUE(allowed.fills[0].flags.empty());
    EXPECT_FALSE(allowed.fills[0].cost);
}

TEST(Supply, ANewPrescriptionIsDueAfterItsRefillsOrItsMonths) {
    SupplyInput asked = input({{kStart, take(1, 0, 0)}}, 28 * 9, 28, 0);
    asked.limits.refills = 5;
    asked.limits.months = 6;
    const auto supply = supply_for(asked).value();
    ASSERT_EQ(supply.fills.size(), 9U);
    for (std::size_t i = 0; i < 9; ++i)  // the first fill and five refills, then a new one
        EXPECT_EQ(supply.fills[i].flags.empty(), i != 6) << i;
    EXPECT_EQ(supply.fills[6].flags[0].rule, "refills");
    asked.limits.refills = 20;  // 6 months from 4 January are over on 4 July: 28 x 7 = 19 July
    const auto by_time = supply_for(asked).value();
    for (std::size_t i = 0; i < 9; ++i) EXPECT_EQ(by_time.fills[i].flags.empty(), i != 7) << i;
}

TEST(Supply, AnOpenedLiquidIsThrownAwayWhenItIsTooOld) {
    const auto sips = [](std::int64_t nl) {
        return std::vector<PlannedDose>{
            {{480}, "diazepam", Dose::nanograms(nl), {{kLiquid, Cut::ml, 1, Volume::nanolitres(nl)}}}};
    };
    // 2 mL a day are held in reserve for 20 days; then a tenth of it is taken.
    SupplyInput asked = input({{kStart, sips(2'000'000)}, {kStart + days(14), sips(200'000)}}, 56, 28, 20);
    asked.limits.liquid_days = 30;
    const auto supply = supply_for(asked).value();
    EXPECT_TRUE(supply.fills[0].too_old.empty());
    ASSERT_EQ(supply.fills[1].too_old.size(), 1U);
    // 48 days of 2 mL, of which 14 x 2 mL and 14 x 0.2 mL were taken; two more days of 0.2 mL before it is
    // too old.
    EXPECT_EQ(supply.fills[1].too_old[0].volume,
              Volume::nanolitres(96'000'000 - 28'000'000 - 2'800'000 - 400'000));
    EXPECT_EQ(supply.fills[0].flags[0].rule, "liquid-life");
    asked.limits.liquid_days = 0;
    EXPECT_TRUE(supply_for(asked)->fills[1].too_old.empty());
}

TEST(Supply, WhatCannotBeCountedIsRefusedInWords) {
    const auto faults = supply_for(input({}, 0, 0, -1));
    ASSERT_FALSE(faults);
    EXPECT_EQ(faults.faults().size(), 4u);
}

// Over random plans, whichever day is held, nothing runs out before the fill after it and the reserve.
TEST(Supply, NeverRunsOutBeforeItsDateWhicheverDayIsHeld) {
    std::mt19937_64 random(7);
    for (int round = 0; round < 500; ++round) {
        std::vector<DatedDoses> doses;
        int left = 8 + static_cast<int>(random() % 8);
        for (Day day = kStart; left > 0; day += days(3 + random() % 12)) {
            doses.push_back({day, take(left / 4, left % 4 / 2, left % 2)});
            left -= 1 + static_cast<int>(random() % 2);
        }
        const int per_fill = 5 + static_cast<int>(random() % 25);
        const int reserve = static_cast<int>(random() % 6);
        const SupplyInput asked = input(doses, 60, per_fill, reserve);
        const auto supply = supply_for(asked).value();
        const auto doses_of_day = [&](Day day) {
            const std::vector<PlannedDose>* found = &doses.front().doses;
            for (const auto& each : doses)
                if (each.from <= day) found = &each.doses;
            return *found;
        };
        Stock home;
        for (const Fill& fill : supply.fills) {
            for (const SupplyItem& item : fill.items) home.add(item.product, item.units, item.volume);
            for (Day held = std::max(kStart, fill.from - days(1)); held < fill.to; held += days(1)) {
                Stock trial = home;
                for (Day day = fill.from; day < fill.to + days(reserve); day += days(1))
                    trial.take(doses_of_day(std::min(day, held)));
                ASSERT_FALSE(trial.lacks_anything());
            }
            for (Day day = fill.from; day < fill.to; day += days(1)) home.take(doses_of_day(day));
            ASSERT_FALSE(home.lacks_anything());
        }
    }
}

}  // namespace
}  // namespace evenfall
