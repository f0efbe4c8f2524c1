// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/time_axis.h"

#include <QStringList>
#include <random>

#include <gtest/gtest.h>

namespace evenfall::ui {
namespace {

TimeAxis random_axis(std::mt19937& random) {
    TimeAxis axis;
    const double first = std::uniform_real_distribution(15'000.0, 25'000.0)(random);
    axis.set_limits({first, first + std::uniform_real_distribution(1.0, 2'000.0)(random)});
    axis.set_width(std::uniform_real_distribution(50.0, 3'000.0)(random));
    axis.zoom(std::uniform_real_distribution(0.1, 20.0)(random), first);
    axis.pan(std::uniform_real_distribution(-900.0, 900.0)(random));
    return axis;
}

double width_of(const QString& label) {
    return 7.0 * static_cast<double>(label.size());
}

TEST(TimeAxis, ADayAndItsPlaceInPixelsLeadBackToEachOther) {
    std::mt19937 random(1);
    for (int i = 0; i < 2'000; ++i) {
        const TimeAxis axis = random_axis(random);
        const double x = std::uniform_real_distribution(-100.0, 3'000.0)(random);
        EXPECT_NEAR(axis.x(axis.place(x)), x, 1e-6);
        EXPECT_NEAR(axis.x(axis.visible().first), 0, 1e-9);
        EXPECT_NEAR(axis.x(axis.visible().last), axis.width(), 1e-6);
    }
}

TEST(TimeAxis, NothingBeyondTheLimitsIsEverShown) {
    std::mt19937 random(2);
    for (int i = 0; i < 2'000; ++i) {
        const TimeAxis axis = random_axis(random);
        EXPECT_GE(axis.visible().first, axis.limits().first - 1e-6);
        EXPECT_LE(axis.visible().last, axis.limits().last + 1e-6);
        EXPECT_GE(axis.visible().days(), TimeAxis::kLeastDays - 1e-6);
    }
}

TEST(TimeAxis, ZoomingKeepsThePlaceUnderTheMouse) {
    TimeAxis axis;
    axis.set_limits({20'000, 21'000});
    axis.set_width(700);
    axis.show({20'300, 20'600});
    const double about = 20'400, before = axis.x(about);
    axis.zoom(1.5, about);
    EXPECT_NEAR(axis.x(about), before, 1e-9);
    EXPECT_NEAR(axis.visible().days(), 200, 1e-9);
    axis.zoom(1 / 1.5, about);
    EXPECT_NEAR(axis.visible().first, 20'300, 1e-6);
}

TEST(TimeAxis, PanningThereAndBackEndsWhereItBegan) {
    TimeAxis axis;
    axis.set_limits({20'000, 21'000});
    axis.show({20'300, 20'400});
    axis.pan(120);
    axis.pan(-120);
    EXPECT_EQ(axis.visible(), (TimeRange{20'300, 20'400}));
}

TEST(TimeAxis, LabelsNeverTouchAndNeverPassTheEnd) {
    std::mt19937 random(3);
    int labels = 0;
    for (int i = 0; i < 3'000; ++i) {
        const TimeAxis axis = random_axis(random);
        double free_from = -1;
        for (const TimeTick& tick : axis.ticks(width_of)) {
            EXPECT_NEAR(tick.x, axis.x(tick.day), 1e-9);
            if (tick.label.isEmpty()) continue;
            ++labels;
            EXPECT_GE(tick.x, free_from);
            free_from = tick.x + width_of(tick.label);
            EXPECT_LE(free_from, axis.width());
        }
    }
    EXPECT_GT(labels, 5'000);
}

TEST(TimeAxis, MonthsAreNamedAndANewYearIsSaid) {
    TimeAxis axis;
    axis.set_limits({axis_day(day_at(2026, 9, 1)), axis_day(day_at(2027, 6, 1))});
    axis.set_width(800);
    axis.show_all();
    QStringList labels;
    for (const TimeTick& tick : axis.ticks(width_of)) labels << tick.label;
    EXPECT_EQ(labels.join(QLatin1Char(' ')).toStdString(), "Sep Oct Nov Dec Jan 2027 Feb Mar Apr May");
}

}  // namespace
}  // namespace evenfall::ui
