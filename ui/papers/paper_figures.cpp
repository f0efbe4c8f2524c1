// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "papers/paper_blocks.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kChart = 13;  // height of the picture of the dose, in sizes of type
constexpr double kTightChart = 9;

/// Where days and amounts lie in the picture of the dose.
struct ChartFrame {
    QRectF plot;
    double first, last, low, high;

    double x(Day day) const {
        return plot.left() +
               plot.width() * (static_cast<double>(day.time_since_epoch().count()) - first) / (last - first);
    }
    double y(double mg) const {
        if (mg <= 0) return plot.bottom();
        const double room = plot.height() * 0.86;
        return plot.top() + room * (std::log(high) - std::log(mg)) / (std::log(high) - std::log(low));
    }
};

ChartFrame frame_of(const DoseChart& chart, const QRectF& plot) {
    double low = 1e9;
    double high = 0;
    for (const DoseChart::Stair& stair : chart.stairs) {
        if (stair.mg > 0) low = std::min(low, stair.mg);
        high = std::max(high, stair.mg);
    }
    return {plot, static_cast<double>(chart.stairs.front().from.time_since_epoch().count()),
            static_cast<double>(chart.to.time_since_epoch().count()), std::min(low, high / 2), high * 1.05};
}

void paint_stairs(QPainter& painter, const DoseChart& chart, const ChartFrame& frame) {
    for (std::size_t i = 0; i < chart.stairs.size(); ++i) {
        const DoseChart::Stair& stair = chart.stairs[i];
        QPen pen(kPaperInk, stair.agreed ? 2.0 : 1.1);
        if (!stair.agreed) pen.setDashPattern({3, 2.5});
        pen.setCapStyle(Qt::FlatCap);
        painter.setPen(pen);
        const double right =
            i + 1 < chart.stairs.size() ? frame.x(chart.stairs[i + 1].from) : frame.plot.right();
        if (i > 0)
            painter.drawLine(QPointF(frame.x(stair.from), frame.y(chart.stairs[i - 1].mg)),
                             QPointF(frame.x(stair.from), frame.y(stair.mg)));
        painter.drawLine(QPointF(frame.x(stair.from), frame.y(stair.mg)), QPointF(right, frame.y(stair.mg)));
    }
}

/// Words of the legend with the line that they explain.
std::string on_one_line(const std::string& words) {
    std::string kept;
    for (const char each : words) kept += each == ' ' ? std::string("\u00A0") : std::string(1, each);
    return kept;
}

}  // namespace

void PaperSetter::set_content(const DoseChart& chart, Glue glue) {
    if (chart.stairs.size() < 2 || chart.to <= chart.stairs.front().from) return;
    const PaperText title = text(chart.title + ": " + on_one_line(chart.agreed + " ———") + "   " +
                                     on_one_line(chart.outlook + " – – –"),
                                 plain(), width_);
    const double axis = style_.text * 5.2;
    const double height = title.height() + style_.text * (style_.tight ? kTightChart : kChart);
    std::vector<std::pair<double, PaperText>> amounts;
    for (const auto& [mg, label] : chart.amounts) amounts.emplace_back(mg, text(label, plain(), axis));
    std::vector<std::pair<Day, PaperText>> dates;
    for (const auto& [day, label] : chart.dates)
        dates.emplace_back(day, text(label, plain(), style_.text * 8));
    const PaperText off = text(chart.off, plain(), axis);
    const bool reaches_none =
        std::ranges::any_of(chart.stairs, [](const auto& stair) { return stair.mg <= 0; });
    const double line = style_.text * 1.3;
    const double width = width_;
    add(
        height,
        [=](QPainter& painter, const QPointF& at) {
            title.paint(painter, at);
            const double top = title.height() + line / 2;  // the highest amount stands beside its line
            const QRectF plot(at.x() + axis, at.y() + top, width - axis, height - top - line - 8);
            const ChartFrame frame = frame_of(chart, plot);
            double free_below = 0;
            for (const auto& [mg, label] : amounts) {
                const double y = frame.y(mg);
                if (mg < frame.low || y < free_below || (reaches_none && y > plot.bottom() - line)) continue;
                free_below = y + line;
                painter.setPen(QPen(kPaperRule, 0.4));
                painter.drawLine(QPointF(plot.left(), frame.y(mg)), QPointF(plot.right(), frame.y(mg)));
                label.paint(painter, {plot.left() - label.natural_width() - 5, frame.y(mg) - line / 2});
            }
            if (reaches_none)
                off.paint(painter, {plot.left() - off.natural_width() - 5, plot.bottom() - line / 2});
            double free_from = plot.left();
            for (const auto& [day, label] : dates) {
                const double x = frame.x(day);
                painter.setPen(QPen(kPaperRule, 0.6));
                painter.drawLine(QPointF(x, plot.bottom() + 2), QPointF(x, plot.bottom() + 6));
                if (x < free_from || x + label.natural_width() > plot.right()) continue;
                label.paint(painter, {x, plot.bottom() + 7});
                free_from = x + label.natural_width() + 8;
            }
            painter.setPen(QPen(kPaperRule, 0.8));
            painter.drawLine(plot.bottomLeft() + QPointF(0, 2), plot.bottomRight() + QPointF(0, 2));
            paint_stairs(painter, chart, frame);
        },
        glue);
    atoms_.push_back(space(style_.gap, glue));
}

}  // namespace evenfall::ui
