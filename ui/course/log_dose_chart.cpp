// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/log_dose_chart.h"

#include <QChart>
#include <QLineSeries>
#include <QPen>
#include <QScatterSeries>

#include "theme/theme.h"

namespace evenfall::ui {

LogDoseChart::LogDoseChart(QWidget* parent) : LaneChart(parent), taken_(add_series<QScatterSeries>()) {
    taken_->setMarkerShape(QScatterSeries::MarkerShapeCircle);
}

std::vector<QList<QPointF>> LogDoseChart::runs(const std::vector<Tread>& treads, const LogScale& scale,
                                               bool outlook) {
    std::vector<QList<QPointF>> runs;
    const Tread* last = nullptr;
    for (const Tread& tread : treads) {
        const bool joins = last && last->to == tread.from;
        if (tread.outlook == outlook) {
            if (!joins || last->outlook != outlook) runs.emplace_back();
            // The riser belongs to the tread that it leads to.
            if (joins) runs.back() << QPointF(tread.from, scale.place(last->daily));
            runs.back() << QPointF(tread.from, scale.place(tread.daily))
                        << QPointF(tread.to, scale.place(tread.daily));
        }
        last = &tread;
    }
    return runs;
}

void LogDoseChart::show_data(const DoseChartData& shown) {
    std::vector<Dose> amounts;
    for (const Tread& tread : shown.treads) amounts.push_back(tread.daily);
    for (const TakenDot& dot : shown.taken) amounts.push_back(dot.total);
    scale_ = LogScale::holding(amounts);
    fill(planned_, runs(shown.treads, scale_, false));
    fill(outlook_, runs(shown.treads, scale_, true));
    QList<QPointF> dots;
    for (const TakenDot& dot : shown.taken) dots << QPointF(dot.place, scale_.place(dot.total));
    replace(taken_, dots);
    restyle();
}

void LogDoseChart::fill(std::vector<QLineSeries*>& pool, const std::vector<QList<QPointF>>& runs) {
    while (pool.size() < runs.size()) pool.push_back(add_series<QLineSeries>());
    for (std::size_t i = 0; i < pool.size(); ++i)
        replace(pool[i], i < runs.size() ? runs[i] : QList<QPointF>());
}

void LogDoseChart::restyle() {
    QPen line(tone(Tone::planned), data_line());
    line.setJoinStyle(Qt::MiterJoin);
    for (QLineSeries* series : planned_) series->setPen(line);
    line.setDashPattern({4, 3});
    line.setCapStyle(Qt::FlatCap);
    line.setColor(tone(Tone::outlook));
    for (QLineSeries* series : outlook_) series->setPen(line);
    taken_->setColor(tone(Tone::ink));
    taken_->setBorderColor(Qt::transparent);
    taken_->setMarkerSize(4.5);

    const double per_pixel = (scale_.top() - scale_.least()) / std::max(1.0, chart()->plotArea().height());
    std::vector<AxisLabel> labels;
    for (const auto& tick : scale_.ticks(18 * per_pixel)) labels.push_back({tick.place, tick.label});
    // A little air above the highest round amount, so that its label and line are whole.
    set_scale(scale_.least(), scale_.top() + 10 * per_pixel, labels);
}

}  // namespace evenfall::ui
