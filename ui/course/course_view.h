// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "course/lanes.h"
#include "course/scene.h"
#include "course/time_axis.h"

namespace evenfall::ui {

/// What is chosen: an item of a lane.
struct LaneChoice {
    std::size_t lane = 0;
    std::size_t item = 0;

    bool operator==(const LaneChoice&) const = default;
};

/// How much time is shown at once.
enum class CourseRange { weeks_13, year, all };

/// All lanes on one time axis with a line at today. Dragging and the arrow keys with Shift pan, Ctrl with the
/// wheel and
/// + and - zoom, Home and End go to the ends, T to today; the arrows move the one choice along a lane and
/// between lanes.
class CourseView : public QWidget {
    Q_OBJECT

  public:
    explicit CourseView(QWidget* parent = nullptr);

    /// Shows another scene; the visible days are kept unless the limits changed.
    void show_scene(const CourseScene& scene);
    void show_level(const LevelCurve& curve, bool computing);
    /// How far a long computation of the level is, 0 to 100.
    void show_level_progress(int percent);
    void show_range(CourseRange range);
    /// The range that is shown whole; empty after the days were moved by hand.
    const std::optional<CourseRange>& range() const { return range_; }
    void go_to_today();

    const TimeAxis& axis() const { return axis_; }
    const std::vector<Lane*>& lanes() const { return lanes_; }
    const std::optional<LaneChoice>& choice() const { return choice_; }
    void choose(std::optional<LaneChoice> choice);
    /// The chosen item, or null.
    const LaneItem* chosen_item() const;

  signals:
    /// Another item was chosen, or none.
    void choice_changed();
    /// Other days are shown.
    void axis_changed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    class TodayLine;
    void axis_moved();
    void moved_by_hand();
    void move_along(int step);
    void move_across(int step);
    void bring_into_view(const LaneItem& item);
    bool act_on_key(int key, bool shift);

    TimeAxis axis_;
    Day today_{};
    StepsLane* steps_;
    DoseLane* dose_;
    LevelLane* level_;
    SymptomLane* symptoms_;
    ContactLane* contact_;
    TimeScale* scale_;
    TodayLine* line_;
    std::vector<Lane*> lanes_;
    std::optional<LaneChoice> choice_;
    std::optional<CourseRange> range_;
    std::optional<double> drag_from_;
};

}  // namespace evenfall::ui
