// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/dose.h"

#include <stdexcept>

#include <gtest/gtest.h>

#include "units/share.h"

namespace evenfall {
namespace {

TEST(Dose, AQuarterOfTheSmallestTabletIsExact) {
    EXPECT_EQ(Dose::micrograms(125).part(4)->ng(), 31'250);
    EXPECT_FALSE(Dose::nanograms(1).part(2));
}

TEST(Dose, OverflowIsNeverSilent) {
    const Dose most = Dose::nanograms(INT64_MAX);
    EXPECT_THROW(most + Dose::nanograms(1), std::overflow_error);
    EXPECT_THROW(most * 2, std::overflow_error);
    EXPECT_THROW(Dose::nanograms(INT64_MIN) - Dose::nanograms(1), std::overflow_error);
}

TEST(Dose, LiquidsAreExactBothWays) {
    const Dose per_ml = Dose::milligrams(1);
    EXPECT_EQ(amount_in(Volume::nanolitres(400'000), per_ml), Dose::micrograms(400));
    EXPECT_EQ(volume_of(Dose::micrograms(400), per_ml), Volume::nanolitres(400'000));
    EXPECT_FALSE(amount_in(Volume::nanolitres(1), Dose::nanograms(1)));
}

TEST(Share, ACutOfExactlyTenPercentKeepsACapOfTenPercent) {
    EXPECT_EQ(Share::cut(Dose::micrograms(1250), Dose::micrograms(1125)), Share::percent(10));
    EXPECT_GT(
        Share::cut(Dose::nanograms(1'000'000'000'000'000'000), Dose::nanograms(899'999'999'999'999'999)),
        Share::percent(10));
}

TEST(Share, PrintsOneDecimalRoundedHalfUp) {
    EXPECT_EQ(print_percent(Share::of(1, 12)), "8.3");
    EXPECT_EQ(print_percent(Share::percent(5), true), "5.0");
    EXPECT_EQ(print_percent(Share::of(1, 2000)), "0.1");
    EXPECT_EQ(print_percent(Share::percent(100), true), "100.0");
}

// Twice the same 10 % cut is 19 %, three times 27.1 %: the arithmetic behind the 25 % in two weeks.
TEST(Share, RepeatedCutsAreOfTheCurrentDose) {
    const Dose start = Dose::milligrams(1000);
    EXPECT_EQ(print_percent(Share::cut(start, Dose::milligrams(810))), "19");
    EXPECT_EQ(print_percent(Share::cut(start, Dose::milligrams(729))), "27.1");
}

}  // namespace
}  // namespace evenfall
