// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "stabilization/check.h"

namespace evenfall::ui {

/// The modelled 24 hours: the band of the days as taken with its middle line, and the intended day as a
/// dashed line.
class DayLevelChart : public QWidget {
    Q_OBJECT
  public:
    explicit DayLevelChart(QWidget* parent = nullptr);
    void show_levels(const LevelBand& levels, ClockTime begins);
    QSize sizeHint() const override { return {420, 230}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    LevelBand levels_;
    ClockTime begins_;
};

/// Symptoms against the hours since the last dose: rings in the early half of the interval, triangles in the
/// late half, and the mean of each half as a line with its number.
class IntervalChart : public QWidget {
    Q_OBJECT
  public:
    struct Point {
        double hours = 0;
        int severity = 0;
        bool late = false;
    };
    explicit IntervalChart(QWidget* parent = nullptr);
    void show_points(std::vector<Point> points, const QString& says);
    QSize sizeHint() const override { return {420, 230}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<Point> points_;
};

}  // namespace evenfall::ui
