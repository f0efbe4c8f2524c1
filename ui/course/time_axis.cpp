// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/time_axis.h"

#include <QDate>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace evenfall::ui {
namespace {

using namespace std::chrono;

/// What a tick stands for, finest first.
enum class Unit { week, month, quarter, year };

Day begin_of(Unit unit, Day day) {
    if (unit == Unit::week) return day - days(weekday_from_monday(day));
    const year_month_day date = calendar(day);
    unsigned month = static_cast<unsigned>(date.month());
    if (unit == Unit::quarter) month = (month - 1) / 3 * 3 + 1;
    if (unit == Unit::year) month = 1;
    return day_at(static_cast<int>(date.year()), month, 1);
}

Day next(Unit unit, Day begin) {
    if (unit == Unit::week) return begin + days(7);
    const int months_on = unit == Unit::month ? 1 : unit == Unit::quarter ? 3 : 12;
    const year_month_day date = calendar(begin) + months(months_on);
    return Day(date);
}

QString label_of(Unit unit, Day day, bool with_year) {
    const year_month_day date = calendar(day);
    const QDate qt(static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
                   static_cast<int>(static_cast<unsigned>(date.day())));
    const QLocale locale;
    if (unit == Unit::year) return QString::number(qt.year());
    const QString month = locale.standaloneMonthName(qt.month(), QLocale::ShortFormat);
    const QString text = unit == Unit::week ? QStringLiteral("%1 %2").arg(qt.day()).arg(month) : month;
    return with_year ? QStringLiteral("%1 %2").arg(text).arg(qt.year()) : text;
}

bool crowded(const std::vector<TimeTick>& ticks, const std::function<double(const QString&)>& width,
             double gap) {
    for (std::size_t i = 1; i < ticks.size(); ++i)
        if (ticks[i - 1].x + width(ticks[i - 1].label) + gap > ticks[i].x) return true;
    return false;
}

/// Writes the year at the first mark of each new year: beside the label where that has room, else in its
/// place.
void add_years(Unit unit, std::vector<TimeTick>& ticks, const std::function<double(const QString&)>& width,
               double gap) {
    if (unit == Unit::year) return;
    for (std::size_t i = 0; i < ticks.size(); ++i) {
        if (!ticks[i].begins_year) continue;
        const QString with_year = label_of(unit, ticks[i].day, true);
        const bool fits = i + 1 == ticks.size() || ticks[i].x + width(with_year) + gap / 2 <= ticks[i + 1].x;
        ticks[i].label = fits ? with_year : label_of(Unit::year, ticks[i].day, false);
    }
}

std::vector<TimeTick> ticks_of(Unit unit, const TimeAxis& axis) {
    std::vector<TimeTick> ticks;
    int year = 0;
    for (Day day = begin_of(unit, day_at_place(axis.visible().first)); axis_day(day) < axis.visible().last;
         day = next(unit, day)) {
        const double x = axis.x(day);
        if (x < 0) continue;
        const int its_year = static_cast<int>(calendar(day).year());
        ticks.push_back({day, label_of(unit, day, false), x, its_year != year && year != 0});
        year = its_year;
    }
    return ticks;
}

}  // namespace

Day day_at_place(double place) {
    return Day(days(static_cast<std::int64_t>(std::floor(place))));
}

void TimeAxis::set_limits(const TimeRange& limits) {
    limits_ = limits;
    limits_.last = std::max(limits.last, limits.first + kLeastDays);
    show(visible_);
}

void TimeAxis::set_width(double pixels) {
    width_ = std::max(1.0, pixels);
}

void TimeAxis::show(const TimeRange& range) {
    const double wanted = std::clamp(range.days(), kLeastDays, limits_.days());
    const double middle_kept = range.first + (range.days() - wanted) / 2;
    const double first = std::clamp(middle_kept, limits_.first, limits_.last - wanted);
    visible_ = {first, first + wanted};
}

void TimeAxis::pan(double days) {
    show({visible_.first + days, visible_.last + days});
}

void TimeAxis::zoom(double factor, double about) {
    const double wanted = std::clamp(visible_.days() / factor, kLeastDays, limits_.days());
    const double share = (about - visible_.first) / visible_.days();
    show({about - share * wanted, about + (1 - share) * wanted});
}

std::vector<TimeTick> TimeAxis::ticks(const std::function<double(const QString&)>& label_width,
                                      double gap) const {
    std::vector<TimeTick> ticks;
    for (const Unit unit : {Unit::week, Unit::month, Unit::quarter, Unit::year}) {
        ticks = ticks_of(unit, *this);
        if (crowded(ticks, label_width, gap) && unit != Unit::year) continue;
        add_years(unit, ticks, label_width, gap);
        break;
    }
    double free_from = 0;
    for (TimeTick& tick : ticks) {
        const double end = tick.x + label_width(tick.label);
        if (tick.x < free_from || end > width_)
            tick.label.clear();
        else
            free_from = end + gap / 2;
    }
    return ticks;
}

}  // namespace evenfall::ui
