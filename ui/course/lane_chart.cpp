// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/lane_chart.h"

#include <QCategoryAxis>
#include <QChart>
#include <QGraphicsLayout>
#include <QLegend>
#include <QLineSeries>
#include <QValueAxis>
#include <QXYSeries>
#include <cmath>

#include "theme/theme.h"

namespace evenfall::ui {

LaneChart::LaneChart(QWidget* parent)
    : QChartView(new QChart, parent), days_(new QValueAxis), values_(new QCategoryAxis) {
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
    values_->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
    values_->setLineVisible(false);
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
    for (const QString& label : values_->categoriesLabels()) values_->remove(label);
    values_->setStartValue(least);
    for (const AxisLabel& label : labels) values_->append(label.text, label.place);
    values_->setRange(least, most);
    values_->setLabelsFont(type(Type::note));
    values_->setLabelsColor(tone(Tone::soft_ink));
    values_->setGridLinePen(QPen(tone(Tone::line), 0));
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
