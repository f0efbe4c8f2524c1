// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/diary_view.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

#include "diary/days.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kRow = 26;
constexpr double kDayName = 104;  // room for "Wed 30 Sep 2026"
constexpr double kLeastCell = 24, kMostCell = 36;
constexpr double kBurden = 60, kBurdenGap = 14;  // the line from 0 to 10, and the room beside it
constexpr double kReach = 9;                     // of a mark, for the mouse

}  // namespace

DiaryView::DiaryView(QWidget* parent) : QAbstractScrollArea(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAccessibleName(tr(
        "Diary by day: doses over 24 hours, and symptoms. Arrow keys choose; the same as a table beside it"));
    setMinimumHeight(220);
    verticalScrollBar()->setFocusPolicy(Qt::NoFocus);
    verticalScrollBar()->setSingleStep(static_cast<int>(kRow));
}

void DiaryView::show_sheet(Sheet sheet) {
    sheet_ = std::move(sheet);
    if (chosen_ && !sheet_.row_of(chosen_->day)) chosen_.reset();
    if (chosen_) {
        const auto spots = spots_of(chosen_->day);
        if (std::ranges::find(spots, *chosen_) == spots.end())
            chosen_ = DiarySpot{DiarySpot::Kind::day, chosen_->day, 0};
    }
    measure();
    viewport()->update();
    emit choice_changed();
}

void DiaryView::measure() {
    const double width = viewport()->width();
    const auto items = static_cast<double>(sheet_.items.size());
    left_ = kDayName;
    // Whole pixels, so that what is drawn once can be put anywhere.
    cell_ = items > 0 ? std::floor(std::clamp(width * 0.42 / items, kLeastCell, kMostCell)) : 0;
    const double line = items > 0 ? kBurden + 2 * kBurdenGap : 0;
    grid_ = width - 2 - cell_ * items - line;
    burden_ = grid_ + cell_ * items + kBurdenGap;
    right_ = (items > 0 ? grid_ - 14 : width - 14);
    const int content =
        static_cast<int>(header_height() + kRow * static_cast<double>(sheet_.rows.size()) + 4);
    verticalScrollBar()->setRange(0, std::max(0, content - viewport()->height()));
    verticalScrollBar()->setPageStep(std::max(1, viewport()->height() - static_cast<int>(header_height())));
}

double DiaryView::header_height() const {
    double longest = 0;
    const QFontMetricsF metrics(type(Type::note));
    for (const SheetItem& item : sheet_.items)
        longest = std::max(longest, metrics.horizontalAdvance(item.name));
    return std::ceil(26 + (sheet_.items.empty() ? 0 : std::min(longest + 22, 150.0)));
}

double DiaryView::y_of(std::size_t row) const {
    return header_height() + kRow * static_cast<double>(sheet_.rows.size() - 1 - row) -
           verticalScrollBar()->value();
}

double DiaryView::x_of(int minutes) const {
    return left_ + (right_ - left_) * minutes / (24.0 * 60.0);
}

double DiaryView::cell_x(std::size_t item) const {
    return grid_ + cell_ * static_cast<double>(item);
}

double DiaryView::burden_x(double burden) const {
    return burden_ + kBurden * burden / 10;
}

std::vector<DiarySpot> DiaryView::spots_of(Day day) const {
    std::vector<DiarySpot> spots;
    const auto at = sheet_.row_of(day);
    if (!at) return spots;
    const DayRow& row = sheet_.rows[*at];
    for (std::size_t i = 0; i < row.entries.size(); ++i) spots.push_back({DiarySpot::Kind::dose, day, i});
    for (const auto i : row.missed) spots.push_back({DiarySpot::Kind::missed, day, i});
    std::ranges::stable_sort(spots, {}, [&](const DiarySpot& spot) { return spot_rect(spot).center().x(); });
    for (std::size_t i = 0; i < sheet_.items.size(); ++i)
        if (sheet_.scores[std::min(*at, sheet_.scores.size() - 1)][i].worst >= 0)
            spots.push_back({DiarySpot::Kind::score, day, i});
    spots.insert(spots.begin(), {DiarySpot::Kind::day, day, 0});
    return spots;
}

QRectF DiaryView::spot_rect(const DiarySpot& spot) const {
    const auto at = sheet_.row_of(spot.day);
    if (!at) return {};
    const DayRow& row = sheet_.rows[*at];
    const double y = y_of(*at);
    if (spot.kind == DiarySpot::Kind::day) return {0, y, kDayName - 6, kRow};
    if (spot.kind == DiarySpot::Kind::score) return {cell_x(spot.index), y, cell_, kRow};
    const ClockTime time = spot.kind == DiarySpot::Kind::missed
                               ? row.intended[spot.index].at
                               : clock_of(sheet_.diary.intake[row.entries[spot.index].intake].taken_at);
    const double x = x_of(minutes_into_day(time, sheet_.begins));
    return {x - kReach, y + kRow / 2 - kReach, 2 * kReach, 2 * kReach};
}

std::optional<DiarySpot> DiaryView::spot_at(const QPointF& point) const {
    const double from_top = (point.y() - header_height() + verticalScrollBar()->value()) / kRow;
    if (point.y() < header_height() || from_top < 0 || from_top >= static_cast<double>(sheet_.rows.size()))
        return std::nullopt;
    const Day day = sheet_.rows[row_at(static_cast<int>(from_top))].day;
    std::optional<DiarySpot> nearest;
    double best = 1e9;
    for (const DiarySpot& spot : spots_of(day)) {
        const QRectF box = spot_rect(spot);
        const double away = std::abs(box.center().x() - point.x());
        if (spot.kind != DiarySpot::Kind::day && away <= box.width() / 2 && away < best) {
            nearest = spot;
            best = away;
        }
    }
    return nearest ? nearest : DiarySpot{DiarySpot::Kind::day, day, 0};
}

void DiaryView::choose(std::optional<DiarySpot> spot) {
    if (spot == chosen_) return;
    chosen_ = spot;
    if (chosen_)
        if (const auto row = sheet_.row_of(chosen_->day)) bring_into_sight(*row);
    viewport()->update();
    emit choice_changed();
}

bool DiaryView::choose_day(Day day) {
    if (!sheet_.row_of(day)) return false;
    choose(DiarySpot{DiarySpot::Kind::day, day, 0});
    return true;
}

void DiaryView::set_said(const QString& says) {
    setAccessibleDescription(says);
    QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&changed);
}

void DiaryView::bring_into_sight(std::size_t row) {
    const double top = y_of(row), least = header_height(), most = viewport()->height() - kRow;
    if (top < least)
        verticalScrollBar()->setValue(verticalScrollBar()->value() +
                                      static_cast<int>(std::floor(top - least)));
    if (top > most)
        verticalScrollBar()->setValue(verticalScrollBar()->value() + static_cast<int>(std::ceil(top - most)));
}

void DiaryView::move_day(int by) {
    if (sheet_.is_empty()) return;
    const auto last = static_cast<int>(sheet_.rows.size()) - 1;
    int row = last;
    if (chosen_) row = std::clamp(static_cast<int>(*sheet_.row_of(chosen_->day)) + by, 0, last);
    DiarySpot spot{DiarySpot::Kind::day, sheet_.rows[static_cast<std::size_t>(row)].day, 0};
    // Down a column of the grid, the column is kept.
    if (chosen_ && chosen_->kind == DiarySpot::Kind::score) {
        const DiarySpot below{DiarySpot::Kind::score, spot.day, chosen_->index};
        const auto spots = spots_of(spot.day);
        if (std::ranges::find(spots, below) != spots.end()) spot = below;
    }
    choose(spot);
}

void DiaryView::move_spot(int by) {
    if (!chosen_) return move_day(0);
    const auto spots = spots_of(chosen_->day);
    const auto at = std::ranges::find(spots, *chosen_) - spots.begin();
    choose(spots[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(at + by, 0, std::ssize(spots) - 1))]);
}

void DiaryView::keyPressEvent(QKeyEvent* event) {
    const int page = std::max(1, static_cast<int>((viewport()->height() - header_height()) / kRow) - 1);
    const int all = static_cast<int>(sheet_.rows.size());
    switch (event->key()) {
        case Qt::Key_Down:
            return move_day(-1);
        case Qt::Key_Up:
            return move_day(1);
        case Qt::Key_Right:
            return move_spot(1);
        case Qt::Key_Left:
            return move_spot(-1);
        case Qt::Key_PageDown:
            return move_day(-page);
        case Qt::Key_PageUp:
            return move_day(page);
        case Qt::Key_Home:
            return move_day(all);
        case Qt::Key_End:
            return move_day(-all);
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (chosen_) emit day_opened(chosen_->day);
            return;
        case Qt::Key_Escape:
            return choose(std::nullopt);
        default:
            QAbstractScrollArea::keyPressEvent(event);
    }
}

void DiaryView::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) choose(spot_at(event->position()));
}

void DiaryView::mouseDoubleClickEvent(QMouseEvent* event) {
    if (const auto spot = spot_at(event->position())) emit day_opened(spot->day);
}

void DiaryView::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    viewport()->update();
}

void DiaryView::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    viewport()->update();
}

void DiaryView::resizeEvent(QResizeEvent*) {
    measure();
}

}  // namespace evenfall::ui
