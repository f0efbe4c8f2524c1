// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>
#include <vector>

#include "units/day.h"

namespace evenfall::ui {

/// Days since 1970-01-01 as a place on an axis; a day lies from its own number to the next.
inline double axis_day(Day day) {
    return static_cast<double>(day.time_since_epoch().count());
}
/// The day in which a place of the axis lies.
Day day_at_place(double place);

/// A stretch of time on an axis, in axis days. REQUIRES first < last.
struct TimeRange {
    double first = 0;
    double last = 1;

    double days() const { return last - first; }
    bool operator==(const TimeRange&) const = default;
};

/// A mark under an axis. An empty label is a mark without words.
struct TimeTick {
    Day day{};
    QString label;
    double x = 0;  ///< in pixels from the left of the axis
    bool begins_year = false;

    bool operator==(const TimeTick&) const = default;
};

/// The one axis that all lanes share: which days are seen, and where they lie. A value; panning and zooming
/// give the same answers in any order of screens and lanes.
class TimeAxis {
  public:
    /// Fewer days than this are never shown.
    static constexpr double kLeastDays = 14;

    /// How far the axis may go, and what it shows at first. The visible range is kept within the limits.
    void set_limits(const TimeRange& limits);
    void set_width(double pixels);
    void show(const TimeRange& range);
    void show_all() { show(limits_); }
    /// Moves by so many days, towards the future where positive; stops at the limits.
    void pan(double days);
    /// Shows 1/factor as many days, with the place `about` where it was. REQUIRES factor > 0.
    void zoom(double factor, double about);

    const TimeRange& visible() const { return visible_; }
    const TimeRange& limits() const { return limits_; }
    double width() const { return width_; }
    double pixels_per_day() const { return width_ / visible_.days(); }

    double x(double place) const { return (place - visible_.first) * pixels_per_day(); }
    double x(Day day) const { return x(axis_day(day)); }
    double place(double x) const { return visible_.first + x / pixels_per_day(); }
    bool sees(double from, double to) const { return to > visible_.first && from < visible_.last; }

    /// Weeks, months, quarters or years: the finest whose labels stand at least `gap` pixels apart, with the
    /// year where a new one begins. `label_width` measures a label in pixels. One that would pass the right
    /// end is left out.
    std::vector<TimeTick> ticks(const std::function<double(const QString&)>& label_width,
                                double gap = 12) const;

    bool operator==(const TimeAxis&) const = default;

  private:
    TimeRange limits_{0, 365};
    TimeRange visible_{0, 91};
    double width_ = 1;
};

}  // namespace evenfall::ui
