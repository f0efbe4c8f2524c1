// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "course/scene.h"
#include "course/time_axis.h"

namespace evenfall::ui {

/// One strip of the course page: a name at its left, and a ground on which days lie where the shared axis
/// says. Its items can be chosen by mouse and keys and are children for assistive technology.
class Lane : public QWidget {
    Q_OBJECT

  public:
    /// Room left of the plot for the lane's name and the numbers of its scale, and right of it.
    static constexpr int kGutter = 132;
    static constexpr int kRightMargin = 8;

    Lane(const QString& title, const QString& note, const TimeAxis& axis, QWidget* parent = nullptr);

    const QString& title() const { return title_; }
    /// Where days lie; the same columns in every lane.
    QRectF plot() const;
    const std::vector<LaneItem>& items() const { return items_; }
    /// Where an item lies in the widget; its visible part may be empty.
    virtual QRectF item_rect(std::size_t index) const;
    /// The item under a point, if any.
    virtual std::optional<std::size_t> item_at(const QPointF& point) const;

    void set_selected(std::optional<std::size_t> index);
    std::optional<std::size_t> selected() const { return selected_; }
    /// The days of what is chosen in any lane, shown in all of them.
    void set_span(std::optional<TimeRange> span);

    void set_today(Day today) { today_ = today; }
    /// The visible days changed.
    virtual void axis_moved() { update(); }

  signals:
    void chosen(std::size_t index);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    virtual void paint_lane(QPainter& painter) = 0;
    /// Paints the left side; by default the lane's name and note.
    virtual void paint_gutter(QPainter& painter);

    void set_items(std::vector<LaneItem> items);
    /// What stands under the lane's name: the unit.
    void set_note(const QString& note) { note_ = note; }
    const TimeAxis& axis() const { return axis_; }
    double x(double place) const { return plot().left() + axis_.x(place); }
    /// The columns of a stretch of days, cut to the plot.
    QRectF columns(double from, double to) const;
    /// The x of the line at today, which may lie outside the plot.
    double today_x() const { return x(axis_day(today_) + 0.5); }
    /// The left end for words of a width that would like to begin at `left`: never under the line at today,
    /// never past the right end of the plot.
    double beside_today(double left, double width) const;
    /// Marks an item as chosen.
    void paint_chosen(QPainter& painter, const QRectF& box) const;

  private:
    void paint_ground(QPainter& painter);
    QString title_, note_;
    const TimeAxis& axis_;
    std::vector<LaneItem> items_;
    std::optional<std::size_t> selected_;
    std::optional<TimeRange> span_;
    Day today_{};
};

/// The marks under all lanes, measured in the face of the labels: grid lines and labels never part.
std::vector<TimeTick> lane_ticks(const TimeAxis& axis);

/// Makes lanes and their items known to assistive technology. Called once per program; more calls do nothing.
void install_lane_accessibility();

}  // namespace evenfall::ui
