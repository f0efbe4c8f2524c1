// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>

#include "course/lanes.h"
#include "theme/theme.h"

namespace evenfall::ui {

TimeScale::TimeScale(const TimeAxis& axis, QWidget* parent) : QWidget(parent), axis_(axis) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Time"));
}

void TimeScale::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const QFontMetricsF metrics(type(Type::note));
    const QFontMetricsF bold(type(Type::strong));
    const auto ticks = lane_ticks(axis_);

    const double left = Lane::kGutter;
    const double at = left + axis_.x(axis_day(today_) + 0.5);
    const bool seen = at >= left && at <= left + axis_.width();
    const double half = bold.horizontalAdvance(tr("today")) / 2 + 8;
    const QRectF tag(at - half, 2, 2 * half, 21);

    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::soft_ink));
    const int year = static_cast<int>(calendar(day_at_place(axis_.visible().first)).year());
    painter.drawText(QRectF(0, 4, left - 8, 18), Qt::AlignRight | Qt::AlignVCenter, QString::number(year));
    for (const TimeTick& tick : ticks) {
        const double x = std::round(left + tick.x);
        painter.setPen(QPen(tone(Tone::line), 0));
        painter.drawLine(QPointF(x, 0), QPointF(x, 6));
        const QRectF box(x + 4, 4, metrics.horizontalAdvance(tick.label) + 2, 18);
        if (seen && box.intersects(tag.adjusted(-4, 0, 4, 0))) continue;  // the word "today" says more
        painter.setPen(tone(Tone::soft_ink));
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, tick.label);
    }
    if (!seen) return;
    painter.setPen(Qt::NoPen);
    painter.setBrush(tone(Tone::ink));
    painter.drawRoundedRect(tag, 4, 4);
    painter.setPen(tone(Tone::card));
    painter.setFont(type(Type::strong));
    painter.drawText(tag, Qt::AlignCenter, tr("today"));
}

}  // namespace evenfall::ui
