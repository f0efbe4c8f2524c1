// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QChartView>
#include <QPointF>
#include <vector>

#include "course/time_axis.h"

class QAbstractSeries;
class QLineSeries;
class QValueAxis;
class QXYSeries;

namespace evenfall::ui {

/// A label of a vertical axis.
struct AxisLabel {
    double place = 0;
    QString text;
};

/// Qt Charts as a lane needs it: no ground of its own, no margins, its plot laid to the pixel onto the
/// lane's, days from the shared axis, labels of our own. It takes no mouse and is no child for assistive
/// technology: the lane is. Every value handed to it is checked to be finite; one that is not would blank a
/// series or smear over the plot.
class LaneChart : public QChartView {
    Q_OBJECT

  public:
    explicit LaneChart(QWidget* parent);

    void set_plot(const QRectF& plot);
    void set_days(const TimeRange& visible);
    void set_scale(double least, double most, const std::vector<AxisLabel>& labels);
    /// Where a value of the vertical axis lies, in the widget.
    double y(double value) const;
    /// Grid lines and labels, for the lane to paint under the chart. Qt's own category axis keeps the layout
    /// of an earlier height after some resizes (seen in 6.4.2), which would put the labels of a dose beside
    /// another dose.
    void paint_lines(QPainter& painter) const;
    void paint_labels(QPainter& painter) const;

    /// A series of the chart's own, on its axes.
    template <class Series>
    Series* add_series() {
        auto* series = new Series;
        put_on_axes(series);
        return series;
    }
    /// All points at once; those with a value that is not finite are dropped.
    static void replace(QXYSeries* series, const QList<QPointF>& points);

  private:
    void put_on_axes(QAbstractSeries* series);
    QValueAxis* days_;
    QValueAxis* values_;
    std::vector<AxisLabel> labels_;
    QRectF plot_;
    double least_ = 0, most_ = 1;
};

}  // namespace evenfall::ui
