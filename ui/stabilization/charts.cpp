// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/charts.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "stabilization/check_words.h"
#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kLeft = 46, kRight = 12, kTop = 46, kBottom = 24;

/// A plot with its scales: x and y in values.
struct Plot {
    QRectF box;
    double most_x = 1, most_y = 1;

    QPointF at(double x, double y) const {
        return {box.left() + box.width() * x / most_x, box.bottom() - box.height() * y / most_y};
    }
};

Plot plot_in(const QWidget& widget, double most_x, double most_y) {
    return {QRectF(widget.rect()).adjusted(kLeft, kTop, -kRight, -kBottom), most_x, most_y};
}

/// Steps of 1, 2 or 5 times a power of ten, about `wanted` of them.
double step_for(double most, int wanted) {
    const double raw = most / wanted, power = std::pow(10, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * power >= raw) return factor * power;
    return 10 * power;
}

void draw_rows(QPainter& painter, const Plot& plot, double step, const QString& unit) {
    painter.setFont(type(Type::note));
    for (double y = 0; y <= plot.most_y + 1e-9; y += step) {
        const QPointF left = plot.at(0, y);
        painter.setPen(QPen(tone(Tone::line), structure_line()));
        painter.drawLine(left, QPointF(plot.box.right(), left.y()));
        painter.setPen(tone(Tone::soft_ink));
        draw_tabular(painter, QRectF(0, left.y() - 9, kLeft - 6, 18), Qt::AlignRight,
                     QString::number(y) + unit);
    }
}

void draw_hour(QPainter& painter, const Plot& plot, double x, const QString& label) {
    const QPointF at = plot.at(x, 0);
    painter.setPen(QPen(tone(Tone::line), structure_line()));
    painter.drawLine(at, at + QPointF(0, 4));
    painter.setPen(tone(Tone::soft_ink));
    const double width = tabular_width(painter.font(), label) + 2;
    const double left = std::min(at.x() - width / 2, plot.box.right() + kRight - width);
    draw_tabular(painter, QRectF(left, at.y() + 5, width, 18), Qt::AlignLeft, label);
}

QPolygonF line_of(const Plot& plot, const std::vector<double>& x, const std::vector<double>& y) {
    QPolygonF line;
    for (std::size_t i = 0; i < std::min(x.size(), y.size()); ++i)
        if (std::isfinite(y[i])) line << plot.at(x[i], y[i]);
    return line;
}

/// One line of the key above a plot.
void draw_key(QPainter& painter, double& y, const QString& words, auto draw_sample) {
    draw_sample(QRectF(kLeft, y, 22, 12));
    painter.setPen(tone(Tone::ink));
    painter.setFont(type(Type::note));
    painter.drawText(QPointF(kLeft + 28, y + 11), words);
    y += 18;
}

double most_of(const std::vector<double>& values) {
    return values.empty() ? 0 : *std::ranges::max_element(values);
}

}  // namespace

DayLevelChart::DayLevelChart(QWidget* parent) : QWidget(parent) {
    setMinimumHeight(210);
    setAccessibleName(tr("Modelled level over 24 hours"));
}

void DayLevelChart::show_levels(const LevelBand& levels, ClockTime begins) {
    levels_ = levels;
    begins_ = begins;
    setAccessibleDescription(level_sentence(levels));
    update();
}

void DayLevelChart::paintEvent(QPaintEvent*) {
    if (levels_.hours.empty()) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double highest = std::max({most_of(levels_.high), most_of(levels_.intended), 100.0}) * 1.05;
    const double step = step_for(highest, 4);
    const Plot plot = plot_in(*this, 24, std::ceil(highest / step) * step);
    draw_rows(painter, plot, step, QStringLiteral(" %"));
    for (int hour = 0; hour <= 24; hour += 4)
        draw_hour(painter, plot, hour,
                  QStringLiteral("%1:00").arg((begins_.minutes / 60 + hour) % 24, 2, 10, QLatin1Char('0')));
    QPolygonF band = line_of(plot, levels_.hours, levels_.high);
    const QPolygonF low = line_of(plot, levels_.hours, levels_.low);
    for (auto point = low.rbegin(); point != low.rend(); ++point) band << *point;
    const QPen middle(tone(Tone::level), data_line()), edge(tone(Tone::level), structure_line());
    QPen intended(tone(Tone::planned), data_line(), Qt::DashLine);
    painter.setPen(edge);
    painter.setBrush(tone(Tone::level_band));
    painter.drawPolygon(band);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(middle);
    painter.drawPolyline(line_of(plot, levels_.hours, levels_.middle));
    painter.setPen(intended);
    painter.drawPolyline(line_of(plot, levels_.hours, levels_.intended));
    double y = 4;
    draw_key(painter, y, tr("modelled, as taken (8 of 10 days lie in the band)"), [&](const QRectF& at) {
        painter.fillRect(at, tone(Tone::level_band));
        painter.setPen(middle);
        painter.drawLine(QPointF(at.left(), at.center().y()), QPointF(at.right(), at.center().y()));
    });
    draw_key(painter, y, tr("modelled, as intended"), [&](const QRectF& at) {
        painter.setPen(intended);
        painter.drawLine(QPointF(at.left(), at.center().y()), QPointF(at.right(), at.center().y()));
    });
}

IntervalChart::IntervalChart(QWidget* parent) : QWidget(parent) {
    setMinimumHeight(210);
    setAccessibleName(tr("Symptoms against the hours since the last dose"));
}

void IntervalChart::show_points(std::vector<Point> points, const QString& says) {
    points_ = std::move(points);
    setAccessibleDescription(says);
    update();
}

namespace {

void draw_point(QPainter& painter, const QPointF& at, bool late) {
    painter.setPen(QPen(tone(Tone::symptom), 1.3));
    if (!late) {
        painter.setBrush(Qt::NoBrush);
        return painter.drawEllipse(at, 3.2, 3.2);
    }
    painter.setBrush(tone(Tone::symptom));
    const QPointF corners[] = {at + QPointF(0, -4), at + QPointF(3.8, 3), at + QPointF(-3.8, 3)};
    painter.drawPolygon(corners, 3);
}

}  // namespace

void IntervalChart::paintEvent(QPaintEvent*) {
    if (points_.empty()) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    double longest = 1;
    for (const Point& point : points_) longest = std::max(longest, point.hours);
    const double step = std::max(1.0, step_for(longest, 6));
    const Plot plot = plot_in(*this, std::ceil(longest / step) * step, 10);
    draw_rows(painter, plot, 2, {});
    for (double hour = 0; hour <= plot.most_x + 1e-9; hour += step)
        draw_hour(painter, plot, hour, tr("%1 h").arg(hour));
    double sum[2] = {0, 0};
    int count[2] = {0, 0};
    for (std::size_t i = 0; i < points_.size(); ++i) {
        const Point& point = points_[i];
        sum[point.late] += point.severity;
        ++count[point.late];
        // Whole numbers would lie on each other: spread them a little, the same way every time.
        const double off = (static_cast<double>(i * 7 % 11) - 5) * 0.05;
        draw_point(painter, plot.at(point.hours, std::clamp(point.severity + off, 0.0, 10.0)), point.late);
    }
    double y = 4;
    for (const bool late : {false, true}) {
        if (count[late] == 0) continue;
        const QString mean = QString::number(sum[late] / count[late], 'f', 1);
        draw_key(
            painter, y,
            late ? tr("late half of the interval, mean %1").arg(mean) : tr("early half, mean %1").arg(mean),
            [&](const QRectF& at) { draw_point(painter, at.center(), late); });
    }
}

}  // namespace evenfall::ui
