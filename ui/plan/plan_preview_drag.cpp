// SPDX-License-Identifier: GPL-3.0-or-later
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "course/day_words.h"
#include "plan/plan_preview.h"
#include "theme/theme.h"

// Moving a step in time on the chart, by the pointer and by keys. The page lays the plan anew; until it has,
// the chart shows what follows where it would then lie.

namespace evenfall::ui {
namespace {

using std::chrono::days;

constexpr double kReach = 6;  // pixels to either side of a riser
constexpr int kWeek = 7;

QString days_words(int by) {
    const int count = std::abs(by);
    const QString length = count == 1 ? PlanPreview::tr("one day") : PlanPreview::tr("%1 days").arg(count);
    return by < 0 ? PlanPreview::tr("%1 earlier").arg(length) : PlanPreview::tr("%1 later").arg(length);
}

}  // namespace

void PlanPreview::name_lines(const QString& whole, const QString& dashed) {
    whole_ = whole;
    dashed_ = dashed;
    setAccessibleName(tr("Dose over time: %1, and %2").arg(whole, dashed));
}

void PlanPreview::allow_moving(std::vector<MovableStep> steps) {
    movable_ = std::move(steps);
    hovered_.reset();
    unsetCursor();
    setFocusPolicy(movable_.empty() ? Qt::NoFocus : Qt::StrongFocus);
    if (!marked()) chosen_.reset();
    setAccessibleDescription(
        movable_.empty() ? QString()
                         : tr("Left and right choose a step, plus and minus move its day, with Control by a "
                              "week. With the pointer a step is dragged by its edge."));
    update();
}

void PlanPreview::choose(int row) {
    const bool known = std::ranges::any_of(movable_, [&](const auto& step) { return step.row == row; });
    chosen_ = known ? std::optional(row) : std::nullopt;
    update();
}

std::optional<QPointF> PlanPreview::riser_of(int row) const {
    for (const MovableStep& step : movable_)
        if (step.row == row) return QPointF(x(axis_day(step.starts)), plot().center().y());
    return std::nullopt;
}

const MovableStep* PlanPreview::movable_at(double at) const {
    const MovableStep* nearest = nullptr;
    double reach = kReach;
    for (const MovableStep& step : movable_)
        if (const double off = std::abs(x(axis_day(step.starts)) - at); off <= reach) {
            nearest = &step;
            reach = off;
        }
    return nearest;
}

const MovableStep* PlanPreview::marked() const {
    constexpr int kNone = -1;
    const int row = hovered_.value_or(hasFocus() ? chosen_.value_or(kNone) : kNone);
    const auto found = std::ranges::find_if(movable_, [&](const auto& step) { return row == step.row; });
    return found == movable_.end() ? nullptr : &*found;
}

void PlanPreview::mousePressEvent(QMouseEvent* event) {
    const MovableStep* step = event->button() == Qt::LeftButton ? movable_at(event->position().x()) : nullptr;
    if (!step) return QWidget::mousePressEvent(event);
    drag_ = Drag{*step, event->position().x(), 0};
    chosen_ = step->row;
    emit chosen(step->row);
    update();
}

void PlanPreview::mouseMoveEvent(QMouseEvent* event) {
    if (!drag_) {
        const MovableStep* step = movable_at(event->position().x());
        const auto over = step ? std::optional(step->row) : std::nullopt;
        if (over == hovered_) return;
        hovered_ = over;
        if (over)
            setCursor(Qt::SizeHorCursor);
        else
            unsetCursor();
        return update();
    }
    const int wanted =
        static_cast<int>(std::lround((event->position().x() - drag_->pressed_at) / pixels_per_day()));
    const int by = std::max(wanted, static_cast<int>((drag_->step.least - drag_->step.starts).count()));
    if (by == drag_->days) return;
    drag_->days = by;
    show_dragged();
}

void PlanPreview::mouseReleaseEvent(QMouseEvent* event) {
    if (!drag_ || event->button() != Qt::LeftButton) return QWidget::mouseReleaseEvent(event);
    const Drag done = *drag_;
    drag_.reset();
    hovered_.reset();
    unsetCursor();
    update();
    if (done.days != 0) emit move_wanted(done.step.row, done.days);
}

void PlanPreview::leaveEvent(QEvent* event) {
    if (!drag_) hovered_.reset();
    update();
    QWidget::leaveEvent(event);
}

void PlanPreview::focusInEvent(QFocusEvent* event) {
    if (!chosen_ && !movable_.empty()) chosen_ = movable_.front().row;
    update();
    QWidget::focusInEvent(event);
}

void PlanPreview::focusOutEvent(QFocusEvent* event) {
    if (drag_) let_go();
    update();
    QWidget::focusOutEvent(event);
}

/// The chart with the dragged step and all after it moved along.
void PlanPreview::show_dragged() {
    DoseChartData moved = drawn_;
    const std::size_t at = first_shown_ + static_cast<std::size_t>(drag_->step.row);
    for (std::size_t i = at; i < moved.treads.size(); ++i) {
        moved.treads[i].from += drag_->days;
        moved.treads[i].to += drag_->days;
    }
    if (at > 0 && at < moved.treads.size()) moved.treads[at - 1].to = moved.treads[at].from;
    chart_->show_data(moved);
    update();
}

void PlanPreview::let_go() {
    drag_.reset();
    chart_->show_data(drawn_);
    update();
}

void PlanPreview::keyPressEvent(QKeyEvent* event) {
    if (drag_ && event->key() == Qt::Key_Escape) return let_go();
    const auto now = std::ranges::find_if(movable_, [&](const auto& step) { return chosen_ == step.row; });
    if (now == movable_.end()) return QWidget::keyPressEvent(event);
    const int by = event->modifiers() & Qt::ControlModifier ? kWeek : 1;
    const auto go_to = [&](const MovableStep& step) {
        chosen_ = step.row;
        emit chosen(step.row);
        update();
    };
    switch (event->key()) {
        case Qt::Key_Left:
            if (now != movable_.begin()) go_to(*std::prev(now));
            return;
        case Qt::Key_Right:
            if (std::next(now) != movable_.end()) go_to(*std::next(now));
            return;
        case Qt::Key_Minus:
            emit move_wanted(now->row, -by);
            return;
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            emit move_wanted(now->row, by);
            return;
        default:
            QWidget::keyPressEvent(event);
    }
}

/// The day of the step that is dragged, pointed at or chosen, as a handle with its words.
void PlanPreview::paint_marks(QPainter& painter) const {
    if (hasFocus()) {
        painter.setPen(QPen(tone(Tone::focus), 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(rect()).adjusted(1, 1, -1, -1));
    }
    if (drag_) {
        const Day to = drag_->step.starts + days(drag_->days);
        const double before = x(axis_day(drag_->step.starts)), after = x(axis_day(to));
        QColor ground = tone(Tone::selected);
        painter.fillRect(
            QRectF(std::min(before, after), plot().top(), std::abs(after - before), plot().height()), ground);
        const QString words =
            drag_->days == 0 ? tr("%1: %2").arg(drag_->step.name, short_day(to))
                             : tr("%1: %2, %3").arg(drag_->step.name, short_day(to), days_words(drag_->days));
        return paint_handle(painter, to, words);
    }
    if (const MovableStep* step = marked())
        paint_handle(painter, step->starts, tr("%1: %2").arg(step->name, short_day(step->starts)));
}

void PlanPreview::paint_handle(QPainter& painter, Day starts, const QString& words) const {
    const QRectF all = plot();
    const double at = x(axis_day(starts));
    painter.setPen(QPen(tone(Tone::planned), 2));
    painter.drawLine(QPointF(at, all.top()), QPointF(at, all.bottom()));
    painter.setFont(type(Type::note));
    const QFontMetricsF metrics(painter.font());
    const double wide = metrics.horizontalAdvance(words) + 12;
    const double left = std::clamp(at + 4, all.left(), std::max(all.left(), all.right() - wide));
    const QRectF box(left, all.top() + 2, wide, metrics.height() + 4);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tone(Tone::planned));
    painter.drawRoundedRect(box, 4, 4);
    painter.setPen(tone(Tone::on_planned));
    painter.drawText(box, Qt::AlignCenter, words);
}

}  // namespace evenfall::ui
