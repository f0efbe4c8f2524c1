// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/lane.h"

#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "theme/theme.h"

namespace evenfall::ui {

Lane::Lane(const QString& title, const QString& note, const TimeAxis& axis, QWidget* parent)
    : QWidget(parent), title_(title), note_(note), axis_(axis) {
    install_lane_accessibility();
    setAccessibleName(title);
    setAccessibleDescription(note);
}

QRectF Lane::plot() const {
    return {double(kGutter), 0, std::max(1.0, double(width() - kGutter - kRightMargin)), double(height())};
}

QRectF Lane::columns(double from, double to) const {
    const QRectF all = plot();
    const double left = std::clamp(x(from), all.left(), all.right());
    const double right = std::clamp(x(to), all.left(), all.right());
    return {left, all.top(), right - left, all.height()};
}

QRectF Lane::item_rect(std::size_t index) const {
    return columns(items_[index].from, items_[index].to);
}

std::optional<std::size_t> Lane::item_at(const QPointF& point) const {
    for (std::size_t i = items_.size(); i-- > 0;)
        if (item_rect(i).adjusted(-1, 0, 1, 0).contains(point)) return i;
    return std::nullopt;
}

void Lane::set_items(std::vector<LaneItem> items) {
    items_ = std::move(items);
    if (selected_ && *selected_ >= items_.size()) selected_.reset();
    update();
}

void Lane::set_selected(std::optional<std::size_t> index) {
    if (selected_ == index) return;
    selected_ = index;
    update();
}

void Lane::set_span(std::optional<TimeRange> span) {
    if (span_ == span) return;
    span_ = span;
    update();
}

void Lane::mousePressEvent(QMouseEvent* event) {
    event->ignore();  // the view drags
    if (event->button() != Qt::LeftButton) return;
    if (const auto index = item_at(event->position())) emit chosen(*index);
}

void Lane::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paint_ground(painter);
    painter.save();
    painter.setClipRect(plot().adjusted(1, 1, -1, -1));
    paint_lane(painter);
    painter.restore();
    paint_gutter(painter);
}

void Lane::paint_ground(QPainter& painter) {
    const QRectF ground = plot().adjusted(0.5, 0.5, -0.5, -0.5);
    QPainterPath card;
    card.addRoundedRect(ground, kRadius, kRadius);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillPath(card, tone(Tone::card));
    painter.save();
    painter.setClipPath(card);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(tone(Tone::line), 0));
    for (const TimeTick& tick : lane_ticks(axis_)) {
        const double at = std::round(plot().left() + tick.x);
        painter.drawLine(QPointF(at, ground.top()), QPointF(at, ground.bottom()));
    }
    if (span_) {
        QColor wash = tone(Tone::planned);
        wash.setAlphaF(0.10F);
        painter.fillRect(columns(span_->first, span_->last), wash);
    }
    painter.restore();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(tone(Tone::line), structure_line()));
    painter.drawPath(card);
}

void Lane::paint_gutter(QPainter& painter) {
    QRectF box(0, 6, kGutter - 48, height() - 8);
    painter.setFont(type(Type::strong));
    painter.setPen(tone(Tone::ink));
    QRectF used;
    painter.drawText(box, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, title_, &used);
    box.setTop(used.bottom() + 2);
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::soft_ink));
    painter.drawText(box, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, note_);
}

double Lane::beside_today(double left, double width) const {
    const QRectF all = plot();
    const double fits = std::max(all.left() + 8, all.right() - width - 8);
    const double from = std::clamp(left, all.left() + 8, fits);
    if (from + width + 4 < today_x() || from > today_x() + 4) return from;
    if (today_x() + 8 <= fits) return today_x() + 8;
    return std::max(all.left() + 8, today_x() - width - 8);
}

std::vector<TimeTick> lane_ticks(const TimeAxis& axis) {
    const QFontMetricsF metrics(type(Type::note));
    return axis.ticks([&](const QString& label) { return metrics.horizontalAdvance(label) + 4; });
}

void Lane::paint_chosen(QPainter& painter, const QRectF& box) const {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(tone(Tone::focus), 2));
    painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 4, 4);
    painter.restore();
}

}  // namespace evenfall::ui
