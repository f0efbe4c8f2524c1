// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "course/lane_chart.h"
#include "course/log_scale.h"

class QScatterSeries;

namespace evenfall::ui {

/// A daily amount over a stretch of days.
struct Tread {
    double from = 0, to = 0;  ///< axis days
    Dose daily;
    bool outlook = false;

    bool operator==(const Tread&) const = default;
};

/// What was taken on a day.
struct TakenDot {
    double place = 0;  ///< axis day, the middle of the day
    Dose total;

    bool operator==(const TakenDot&) const = default;
};

struct DoseChartData {
    std::vector<Tread> treads;  ///< in order of time
    std::vector<TakenDot> taken;

    bool operator==(const DoseChartData&) const = default;
};

/// The one adapter between doses and Qt Charts: stairs on a log scale (whole line what is planned, dashed
/// what is outlook), dots for what was taken, and a shelf for zero. Amounts become places of a LogScale
/// before they meet the chart, so a zero can never blank a line.
class LogDoseChart : public LaneChart {
    Q_OBJECT

  public:
    explicit LogDoseChart(QWidget* parent);

    void show_data(const DoseChartData& shown);
    /// Colours and fonts of the theme in force, and labels for the present height.
    void restyle();
    const LogScale& scale() const { return scale_; }

    /// The corners of the stairs, for one kind; a run ends where another kind or a gap begins.
    static std::vector<QList<QPointF>> runs(const std::vector<Tread>& treads, const LogScale& scale,
                                            bool outlook);

  private:
    void fill(std::vector<QLineSeries*>& pool, const std::vector<QList<QPointF>>& runs);
    LogScale scale_;
    std::vector<QLineSeries*> planned_, outlook_;
    QScatterSeries* taken_;
};

}  // namespace evenfall::ui
