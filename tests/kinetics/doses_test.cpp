// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/doses.h"

#include <gtest/gtest.h>

#include "kinetics/constants.h"

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

const std::string kDrug = "lorazepam";

Zone new_york() {
    return *Zone::named("America/New_York", "");
}

Regimen twice_daily(std::int64_t morning_mg, std::int64_t evening_mg) {
    return {{{{8 * 60}, kDrug, Dose::milligrams(morning_mg), "", ""},
             {{22 * 60}, kDrug, Dose::milligrams(evening_mg), "", ""},
             {{22 * 60}, "diazepam", Dose::milligrams(10), "", ""}}};
}

Intake taken(Day day, int minutes, std::int64_t mg, const std::string& drug = kDrug) {
    return {at_clock(day, {minutes}), drug, Dose::milligrams(mg), TakenWhy::unsaid, ""};
}

}  // namespace

TEST(Doses, ARegimenGivesItsDosesEveryDayInRealHours) {
    const Day day = day_at(2026, 6, 1);
    const auto doses = timed_doses({{day, twice_daily(1, 2)}}, kDrug, day, day + std::chrono::days(2),
                                   LocalTime(day), new_york());
    EXPECT_EQ(doses, (std::vector<TimedDose>{{8, 1}, {22, 2}, {32, 1}, {46, 2}}));
}

TEST(Doses, EachRegimenIsInForceUntilTheNextAndNothingBeforeTheFirst) {
    const Day day = day_at(2026, 6, 10), next = day + std::chrono::days(1), off = day + std::chrono::days(2);
    const auto doses = timed_doses(
        {{off, {}}, {day, twice_daily(1, 2)}, {next, twice_daily(3, 3)}, {next, twice_daily(1, 1)}}, kDrug,
        day - std::chrono::days(3), day + std::chrono::days(6), LocalTime(day), new_york());
    // Of the two that begin on one day the later in the list counts; nothing is taken before the first or
    // when OFF.
    EXPECT_EQ(doses, (std::vector<TimedDose>{{8, 1}, {22, 2}, {32, 1}, {46, 1}}));
}

TEST(Doses, TheDayTheClockGoesForwardHas23Hours) {
    const Day day = day_at(2027, 3, 14);  // 02:00 becomes 03:00
    Regimen regimen = twice_daily(1, 2);
    regimen.doses.insert(regimen.doses.begin(), {{2 * 60 + 30}, kDrug, Dose::milligrams(5), "", ""});
    const auto doses =
        timed_doses({{day, regimen}}, kDrug, day, day + std::chrono::days(2), LocalTime(day), new_york());
    EXPECT_EQ(doses, (std::vector<TimedDose>{{2.5, 5}, {7, 1}, {21, 2}, {25.5, 5}, {31, 1}, {45, 2}}));
}

TEST(Doses, TheDayTheClockGoesBackHas25HoursAndADoubledTimeIsTakenOnce) {
    const Day day = day_at(2026, 11, 1);  // 02:00 becomes 01:00
    Regimen regimen = twice_daily(1, 2);
    regimen.doses.insert(regimen.doses.begin(), {{90}, kDrug, Dose::milligrams(5), "", ""});
    const auto doses =
        timed_doses({{day, regimen}}, kDrug, day, day + std::chrono::days(1), LocalTime(day), new_york());
    EXPECT_EQ(doses, (std::vector<TimedDose>{{1.5, 5}, {9, 1}, {23, 2}}));
    EXPECT_EQ(hours_between(LocalTime(day), LocalTime(day + std::chrono::days(1)), new_york()), 25);
}

TEST(Doses, DiaryEntriesInAnyOrderAreOneAgentsDosesInOrderOfTime) {
    const Day day = day_at(2026, 6, 1);
    const auto doses =
        timed_doses({taken(day, 22 * 60, 2), taken(day, 8 * 60 + 5, 1), taken(day, 8 * 60, 7, "diazepam"),
                     taken(day - std::chrono::days(1), 23 * 60, 3), taken(day, 22 * 60, 1)},
                    kDrug, LocalTime(day), new_york());
    EXPECT_EQ(doses, (std::vector<TimedDose>{{-1, 3}, {8 + 5 / 60.0, 1}, {22, 1}, {22, 2}}));
}

TEST(Doses, ADoseOfTheInstantIsInItsValueAndOneBeforeTheStartIsNot) {
    const Model model = model_of(one_compartment(1, 0.1));
    const Levels found = levels(model, {}, {{-1, 100}, {0, 1}, {2, 4}}, {0, 1, 3});
    EXPECT_EQ(found.values[0][0], 1);
    EXPECT_NEAR(found.values[0][2], 4 + std::exp(-2.0), 1e-15);
    EXPECT_EQ(found.values[1][0], 0);
}

TEST(Doses, ALagMovesTheDoseAndOneOnItsWayAtTheStartArrives) {
    Kinetics kinetics = one_compartment(1, 0.1);
    kinetics.lag_h = 0.5;
    const Model model = model_of(kinetics);
    // Taken 0.25 h before the start: arrives 0.25 h after it. Taken a whole hour before: in the state
    // already.
    const Levels found = levels(model, {}, {{-0.25, 8}, {-1, 100}, {0, 2}}, {0, 0.25, 3});
    EXPECT_EQ(found.values[0][0], 0);
    EXPECT_EQ(found.values[0][1], 8);
    EXPECT_NEAR(found.values[0][2], 8 * std::exp(-0.25) + 2, 1e-15);
    // The same dose as one that the start says is on its way.
    EXPECT_EQ(levels(model, {0, {}, {{-0.25, 8}}}, {{0, 2}}, {0, 0.25, 3}), found);
}

TEST(Doses, TwoDosesOfOneInstantAreOneOfTheirSum) {
    const Model model = model_of(long_lived(), "diazepam");
    const Levels twice = levels(model, {}, {{1.1, 2}, {1.1, 3}}, {0, 0.5, 50});
    const Levels once = levels(model, {}, {{1.1, 5}}, {0, 0.5, 50});
    for (std::size_t c = 0; c < once.values.size(); ++c)
        for (std::size_t i = 0; i < once.grid.count; ++i)
            EXPECT_NEAR(twice.values[c][i], once.values[c][i], 1e-15);
}

TEST(Doses, AClockTimeWrittenAsAFractionOfHoursMeetsItsInstantOnTheGrid) {
    // 8:05 is 8.08333… h: on a grid of five minutes it is instant 97, in spite of rounding, even after two
    // years.
    const Model model = model_of(one_compartment(1, 0.1));
    for (const int day : {0, 1, 100, 729}) {
        const double at = (day * 86400 + 8 * 3600 + 5 * 60) / 3600.0;
        const Grid grid{0, 5 / 60.0, 730 * 288};
        const Levels found = levels(model, {}, {{at, 1}}, grid);
        EXPECT_EQ(found.values[0][static_cast<std::size_t>(day) * 288 + 96], 0) << day;
        EXPECT_EQ(found.values[0][static_cast<std::size_t>(day) * 288 + 97], 1) << day;
    }
}
