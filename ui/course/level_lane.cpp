// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAreaSeries>
#include <QEvent>
#include <QLineSeries>
#include <QPainter>

#include "course/day_words.h"
#include "course/lane_chart.h"
#include "course/lanes.h"
#include "theme/theme.h"

namespace evenfall::ui {

LevelLane::LevelLane(const TimeAxis& axis, QWidget* parent)
    : Lane(tr("Level"), tr("% of before,\nmodelled"), axis, parent),
      chart_(new LaneChart(this)),
      low_(new QLineSeries),
      high_(new QLineSeries),
      middle_(nullptr),
      band_(chart_->add_series<QAreaSeries>()) {
    low_->setParent(band_);
    high_->setParent(band_);
    band_->setUpperSeries(high_);
    band_->setLowerSeries(low_);
    middle_ = chart_->add_series<QLineSeries>();
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void LevelLane::show_curve(const LevelCurve& curve, bool computing) {
    curve_ = curve;
    computing_ = computing;
    QList<QPointF> low, middle, high;
    most_ = 110;
    for (const LevelPoint& point : curve.points) {
        low << QPointF(point.place, point.low);
        middle << QPointF(point.place, point.middle);
        high << QPointF(point.place, point.high);
        most_ = std::max(most_, point.high * 1.05);
    }
    LaneChart::replace(low_, low);
    LaneChart::replace(high_, high);
    LaneChart::replace(middle_, middle);
    set_items(level_items(curve));
    setAccessibleDescription(words());
    lay_chart();
    axis_moved();
}

void LevelLane::axis_moved() {
    chart_->set_days(axis().visible());
    Lane::axis_moved();
}

void LevelLane::lay_chart() {
    chart_->setGeometry(rect());
    chart_->set_plot(plot());
    std::vector<AxisLabel> labels{
        {0, QStringLiteral("0")}, {50, QStringLiteral("50")}, {100, QStringLiteral("100")}};
    if (most_ > 170) labels.push_back({150, QStringLiteral("150")});
    chart_->set_scale(-8, most_, labels);
    band_->setColor(tone(Tone::level_band));
    band_->setBorderColor(Qt::transparent);
    middle_->setPen(QPen(tone(Tone::level), data_line()));
}

void LevelLane::resizeEvent(QResizeEvent* event) {
    Lane::resizeEvent(event);
    lay_chart();
}

void LevelLane::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) lay_chart();
    Lane::changeEvent(event);
}

QString LevelLane::words() const {
    if (curve_.fault) return *curve_.fault;
    if (computing_) return tr("being computed");
    if (!curve_.arrived) return {};
    const auto [least, most] = *curve_.arrived;
    if (least == most)
        return tr("modelled: about %1 % of the cut of %2 has arrived")
            .arg(least)
            .arg(short_day(curve_.last_cut));
    return tr("modelled: %1 to %2 % of the cut of %3 has arrived")
        .arg(least)
        .arg(most)
        .arg(short_day(curve_.last_cut));
}

/// The modelled level under a point of the widget; 0 after the end.
double LevelLane::level_at(double x_from) const {
    const double from = axis().place(x_from - plot().left());
    for (const LevelPoint& point : curve_.points)
        if (point.place >= from) return point.middle;
    return 0;
}

void LevelLane::paint_lane(QPainter& painter) {
    chart_->paint_lines(painter);
    painter.setFont(type(Type::note));
    painter.setPen(tone(curve_.fault || computing_ ? Tone::soft_ink : Tone::level));
    const QString text = words();
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 2;
    const double left = beside_today(std::max(plot().left() + 8, today_x() + 8), width);
    const QRectF box(left, plot().top() + 4, width, plot().height() - 20);
    painter.drawText(box, Qt::AlignLeft | (level_at(left) > 50 ? Qt::AlignBottom : Qt::AlignTop), text);
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(0, 2, 0, -2));
}

void LevelLane::paint_gutter(QPainter& painter) {
    Lane::paint_gutter(painter);
    chart_->paint_labels(painter);
}

}  // namespace evenfall::ui
