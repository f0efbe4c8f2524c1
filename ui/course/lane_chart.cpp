// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/lane_chart.h"

#include <QChart>
#include <QGraphicsLayout>
#include <QLegend>
#include <QLineSeries>
#include <QValueAxis>
#include <QXYSeries>
#include <algorithm>
#include <cmath>

#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {

LaneChart::LaneChart(QWidget* parent)
    : QChartView(new QChart, parent), days_(new QValueAxis), values_(new QValueAxis) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setBackgroundBrush(Qt::NoBrush);
    setRenderHint(QPainter::Antialiasing);
    setStyleSheet(QStringLiteral("background: transparent"));
    viewport()->setAutoFillBackground(false);
    chart()->setBackgroundVisible(false);
    chart()->setPlotAreaBackgroundVisible(false);
    chart()->setMargins({});
    chart()->layout()->setContentsMargins(0, 0, 0, 0);
    chart()->legend()->hide();
    chart()->addAxis(days_, Qt::AlignBottom);
    chart()->addAxis(values_, Qt::AlignLeft);
    days_->setVisible(false);
    values_->setVisible(false);
}

void LaneChart::set_plot(const QRectF& plot) {
    plot_ = plot;
    chart()->setPlotArea(plot);
}

void LaneChart::set_days(const TimeRange& visible) {
    days_->setRange(visible.first, visible.last);
}

void LaneChart::set_scale(double least, double most, const std::vector<AxisLabel>& labels) {
    least_ = least;
    most_ = most;
    labels_ = labels;
    values_->setRange(least, most);
}

void LaneChart::paint_lines(QPainter& painter) const {
    painter.setPen(QPen(tone(Tone::line), 0));
    painter.setRenderHint(QPainter::Antialiasing, false);
    for (const AxisLabel& label : labels_) {
        const double at = std::round(y(label.place));
        painter.drawLine(QPointF(plot_.left(), at), QPointF(plot_.right(), at));
    }
    painter.setRenderHint(QPainter::Antialiasing);
}

void LaneChart::paint_labels(QPainter& painter) const {
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::soft_ink));
    const double height = QFontMetricsF(painter.font()).height();
    for (const AxisLabel& label : labels_) {
        // Whole within the lane, also at its very top.
        const double top = std::clamp(y(label.place) - height / 2, plot_.top(), plot_.bottom() - height);
        draw_tabular(painter, QRectF(plot_.left() - 58, top, 50, height), Qt::AlignRight | Qt::AlignVCenter,
                     label.text);
    }
}

double LaneChart::y(double value) const {
    return plot_.bottom() - (value - least_) / (most_ - least_) * plot_.height();
}

void LaneChart::replace(QXYSeries* series, const QList<QPointF>& points) {
    QList<QPointF> finite;
    finite.reserve(points.size());
    for (const QPointF& point : points)
        if (std::isfinite(point.x()) && std::isfinite(point.y())) finite << point;
    series->replace(finite);
}

void LaneChart::put_on_axes(QAbstractSeries* series) {
    chart()->addSeries(series);
    series->attachAxis(days_);
    series->attachAxis(values_);
}

}  // namespace evenfall::ui
