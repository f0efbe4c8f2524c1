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
namespace {
constexpr double kGaugeWidth = 6, kGaugeHeight = 20;
}

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
    progress_ = 0;
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

void LevelLane::show_progress(int percent) {
    if (!computing_) return;
    progress_ = percent;
    setAccessibleDescription(words());
    update();
}

QString LevelLane::words() const {
    if (curve_.fault) return *curve_.fault;
    if (computing_) return progress_ > 0 ? tr("being computed, %1 %").arg(progress_) : tr("being computed");
    if (curve_.cuts.empty()) return {};
    const ArrivedCut& cut = curve_.cuts.back();
    if (cut.least == cut.most)
        return tr("modelled: about %1 % of the cut of %2 has arrived").arg(cut.least).arg(short_day(cut.on));
    return tr("modelled: %1 to %2 % of the cut of %3 has arrived")
        .arg(cut.least)
        .arg(cut.most)
        .arg(short_day(cut.on));
}

/// The modelled level under a point of the widget; 0 after the end.
double LevelLane::level_at(double x_from) const {
    const double from = axis().place(x_from - plot().left());
    for (const LevelPoint& point : curve_.points)
        if (point.place >= from) return point.middle;
    return 0;
}

QRectF LevelLane::paint_words(QPainter& painter) const {
    const QString text = words();
    if (text.isEmpty()) return {};
    painter.setFont(type(Type::note));
    painter.setPen(tone(curve_.fault || computing_ ? Tone::soft_ink : Tone::level));
    const QFontMetricsF metrics(painter.font());
    const double width = metrics.horizontalAdvance(text) + 2;
    const double left = beside_today(std::max(plot().left() + 8, today_x() + 8), width);
    const double top = level_at(left) > 50 ? plot().bottom() - 16 - metrics.height() : plot().top() + 4;
    const QRectF box(left, top, width, metrics.height());
    painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, text);
    return box;
}

void LevelLane::paint_cuts(QPainter& painter, const QRectF& taken) const {
    painter.setFont(type(Type::note));
    const QFontMetricsF metrics(painter.font());
    double room_until = plot().right();
    for (auto cut = curve_.cuts.rbegin(); cut != curve_.cuts.rend(); ++cut) {
        const double at = x(axis_day(cut->on));
        if (at < plot().left() || at > plot().right() - kGaugeWidth) continue;
        const bool low = level_at(at) > 50;  // the gauge keeps clear of the line
        const QRectF gauge(at, low ? plot().bottom() - 15 - kGaugeHeight : plot().top() + 4, kGaugeWidth,
                           kGaugeHeight);
        const auto filled = [&](double percent) {
            return QRectF(QPointF(gauge.left(), gauge.bottom() - gauge.height() * percent / 100),
                          gauge.bottomRight());
        };
        painter.fillRect(gauge, tone(Tone::card));
        painter.fillRect(filled(cut->most), tone(Tone::level_band));
        painter.fillRect(filled(cut->least), tone(Tone::level));
        painter.setPen(QPen(tone(Tone::level), structure_line()));
        painter.drawRect(gauge);
        const QString says = cut->least == cut->most ? tr("%1 %").arg(cut->least)
                                                     : tr("%1–%2 %").arg(cut->least).arg(cut->most);
        const QRectF box(gauge.right() + 4, gauge.center().y() - metrics.height() / 2,
                         metrics.horizontalAdvance(says) + 2, metrics.height());
        if (cut != curve_.cuts.rbegin() && box.right() + 4 < room_until && !box.intersects(taken)) {
            painter.setPen(tone(Tone::level));
            painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, says);
        }
        room_until = gauge.left();
    }
}

void LevelLane::paint_lane(QPainter& painter) {
    chart_->paint_lines(painter);
    paint_cuts(painter, paint_words(painter));
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(0, 2, 0, -2));
}

void LevelLane::paint_gutter(QPainter& painter) {
    Lane::paint_gutter(painter);
    chart_->paint_labels(painter);
}

}  // namespace evenfall::ui
