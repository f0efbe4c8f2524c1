// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/course_view.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QPainter>
#include <QVBoxLayout>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "theme/theme.h"

namespace evenfall::ui {

/// The line at today through all lanes; it lies over them and takes no mouse.
class CourseView::TodayLine : public QWidget {
  public:
    explicit TodayLine(CourseView* view) : QWidget(view), view_(view) {
        setAttribute(Qt::WA_TransparentForMouseEvents);
        setFocusPolicy(Qt::NoFocus);
    }

  protected:
    void paintEvent(QPaintEvent*) override {
        const double at = view_->axis_.x(axis_day(view_->today_) + 0.5);
        if (at < 0 || at > view_->axis_.width()) return;
        QPainter painter(this);
        painter.setPen(QPen(tone(Tone::ink), structure_line() + 0.5));
        const double x = std::round(Lane::kGutter + at);
        // Not over the amount in today's block.
        painter.drawLine(QPointF(x, 50), QPointF(x, height() - view_->scale_->height() + 2));
    }

  private:
    CourseView* view_;
};

CourseView::CourseView(QWidget* parent)
    : QWidget(parent),
      steps_(new StepsLane(axis_, this)),
      dose_(new DoseLane(axis_, this)),
      level_(new LevelLane(axis_, this)),
      symptoms_(new SymptomLane(axis_, this)),
      contact_(new ContactLane(axis_, this)),
      scale_(new TimeScale(axis_, this)),
      line_(new TodayLine(this)),
      lanes_{steps_, dose_, level_, symptoms_, contact_} {
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Course over time"));
    setAccessibleDescription(tr(
        "Arrow keys move the choice along a lane and between lanes; plus and minus zoom; T goes to today."));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    for (std::size_t i = 0; i < lanes_.size(); ++i) {
        column->addWidget(lanes_[i], lanes_[i] == dose_ ? 1 : 0);
        connect(lanes_[i], &Lane::chosen, this, [this, i](std::size_t item) { choose(LaneChoice{i, item}); });
    }
    column->setSpacing(kSpace2);
    column->addWidget(scale_);
    line_->raise();
}

void CourseView::show_scene(const CourseScene& scene) {
    const TimeRange limits = limits_of(scene);
    const bool other = !(limits == axis_.limits());
    today_ = scene.today;
    axis_.set_limits(limits);
    scale_->set_today(scene.today);
    for (Lane* lane : lanes_) lane->set_today(scene.today);
    steps_->show_scene(scene);
    dose_->show_scene(scene);
    symptoms_->show_scene(scene);
    contact_->show_scene(scene);
    if (other) show_range(limits.days() > 400 ? CourseRange::year : CourseRange::all);
    const auto current = scene.course.current;
    choose(current && *current < steps_->items().size() ? std::optional(LaneChoice{0, *current})
                                                        : std::nullopt);
    axis_moved();
}

void CourseView::show_level(const LevelCurve& curve, bool computing) {
    level_->show_curve(curve, computing);
    if (choice_ && choice_->lane == 2) choose(std::nullopt);
}

void CourseView::show_level_progress(int percent) {
    level_->show_progress(percent);
}

void CourseView::show_range(CourseRange range) {
    const double today = axis_day(today_);
    switch (range) {
        case CourseRange::weeks_13:
            axis_.show({today - 45, today + 46});
            break;
        case CourseRange::year:
            axis_.show({today - 122, today + 244});
            break;
        case CourseRange::all:
            axis_.show_all();
            break;
    }
    range_ = range;
    axis_moved();
    emit axis_changed();
}

void CourseView::go_to_today() {
    const double days = axis_.visible().days();
    axis_.show({axis_day(today_) - days / 2, axis_day(today_) + days / 2});
    axis_moved();
}

void CourseView::axis_moved() {
    for (Lane* lane : lanes_) lane->axis_moved();
    scale_->update();
    line_->update();
}

void CourseView::moved_by_hand() {
    range_.reset();
    axis_moved();
    emit axis_changed();
}

const LaneItem* CourseView::chosen_item() const {
    return choice_ ? &lanes_[choice_->lane]->items()[choice_->item] : nullptr;
}

void CourseView::choose(std::optional<LaneChoice> choice) {
    if (choice && (choice->lane >= lanes_.size() || choice->item >= lanes_[choice->lane]->items().size()))
        choice.reset();
    choice_ = choice;
    const LaneItem* item = chosen_item();
    for (std::size_t i = 0; i < lanes_.size(); ++i) {
        lanes_[i]->set_selected(choice && choice->lane == i ? std::optional(choice->item) : std::nullopt);
        lanes_[i]->set_span(item ? std::optional(TimeRange{item->from, item->to}) : std::nullopt);
    }
    emit choice_changed();
}

void CourseView::bring_into_view(const LaneItem& item) {
    const TimeRange& seen = axis_.visible();
    if (item.from < seen.first || item.to > seen.last) {
        const double room = std::min(seen.days() * 0.1, 14.0);
        axis_.pan(item.from < seen.first ? item.from - room - seen.first
                                         : std::min(item.to + room - seen.last, item.from - seen.first));
        axis_moved();
    }
}

void CourseView::move_along(int step) {
    if (!choice_) {
        choose(LaneChoice{0, 0});
    } else {
        const auto count = static_cast<int>(lanes_[choice_->lane]->items().size());
        const int next = std::clamp(static_cast<int>(choice_->item) + step, 0, count - 1);
        choose(LaneChoice{choice_->lane, static_cast<std::size_t>(next)});
    }
    if (const LaneItem* item = chosen_item()) bring_into_view(*item);
}

/// To the next lane that has anything, at the item nearest in time.
void CourseView::move_across(int step) {
    if (!choice_) return move_along(0);
    const double at = (chosen_item()->from + chosen_item()->to) / 2;
    const auto count = static_cast<int>(lanes_.size());
    for (int lane = static_cast<int>(choice_->lane) + step; lane >= 0 && lane < count; lane += step) {
        const auto& items = lanes_[static_cast<std::size_t>(lane)]->items();
        if (items.empty()) continue;
        const auto away = [at](const LaneItem& item) { return std::abs((item.from + item.to) / 2 - at); };
        const auto nearest = std::ranges::min_element(items, {}, away);
        choose(LaneChoice{static_cast<std::size_t>(lane), static_cast<std::size_t>(nearest - items.begin())});
        return bring_into_view(*nearest);
    }
}

bool CourseView::act_on_key(int key, bool shift) {
    const TimeRange seen = axis_.visible();
    const double middle = (seen.first + seen.last) / 2;
    switch (key) {
        case Qt::Key_Left:
        case Qt::Key_Right: {
            const int step = key == Qt::Key_Left ? -1 : 1;
            if (shift)
                axis_.pan(step * seen.days() / 8);
            else
                move_along(step);
            break;
        }
        case Qt::Key_Up:
            move_across(-1);
            break;
        case Qt::Key_Down:
            move_across(1);
            break;
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            axis_.zoom(1.25, middle);
            break;
        case Qt::Key_Minus:
            axis_.zoom(1 / 1.25, middle);
            break;
        case Qt::Key_Home:
            axis_.pan(axis_.limits().first - seen.first);
            break;
        case Qt::Key_End:
            axis_.pan(axis_.limits().last - seen.last);
            break;
        case Qt::Key_T:
            go_to_today();
            break;
        case Qt::Key_Escape:
            if (!choice_) return false;
            choose(std::nullopt);
            break;
        default:
            return false;
    }
    return true;
}

void CourseView::keyPressEvent(QKeyEvent* event) {
    const TimeRange before = axis_.visible();
    const auto other = event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
    if (other || !act_on_key(event->key(), event->modifiers() & Qt::ShiftModifier))
        return QWidget::keyPressEvent(event);
    axis_moved();
    if (!(before == axis_.visible())) moved_by_hand();
}

void CourseView::wheelEvent(QWheelEvent* event) {
    const double sideways = event->angleDelta().x() != 0             ? event->angleDelta().x()
                            : event->modifiers() & Qt::ShiftModifier ? event->angleDelta().y()
                                                                     : 0;
    if (event->modifiers() & Qt::ControlModifier)
        axis_.zoom(std::pow(1.25, event->angleDelta().y() / 120.0),
                   axis_.place(event->position().x() - Lane::kGutter));
    else if (sideways != 0)
        axis_.pan(-sideways / 120 * axis_.visible().days() / 12);
    else
        return event->ignore();
    event->accept();
    moved_by_hand();
}

void CourseView::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    if (event->button() == Qt::LeftButton && event->position().x() > Lane::kGutter)
        drag_from_ = event->position().x();
}

void CourseView::mouseMoveEvent(QMouseEvent* event) {
    if (!drag_from_ || !(event->buttons() & Qt::LeftButton)) return;
    const double moved = event->position().x() - *drag_from_;
    if (std::abs(moved) < 1) return;
    axis_.pan(-moved / axis_.pixels_per_day());
    drag_from_ = event->position().x();
    moved_by_hand();
}

void CourseView::mouseReleaseEvent(QMouseEvent*) {
    drag_from_.reset();
}

void CourseView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    axis_.set_width(width() - Lane::kGutter - Lane::kRightMargin);
    line_->setGeometry(rect());
    axis_moved();
}

void CourseView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (!choice_) move_along(0);
}

}  // namespace evenfall::ui
