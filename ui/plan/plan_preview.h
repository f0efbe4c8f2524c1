// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "casework/plan_base.h"
#include "course/log_dose_chart.h"

namespace evenfall::ui {

/// A step of the shown plan that may be moved in time.
struct MovableStep {
    int row = 0;
    QString name;  ///< "Step 3"
    Day starts{};
    Day least{};  ///< the earliest day on which it may begin

    bool operator==(const MovableStep&) const = default;
};

/// The dose chart before anything is kept: the plan in force as a whole line, what is on the table dashed, on
/// one log scale. Where a crossover is in either, both are drawn as diazepam by the usual equivalence.
///
/// A step that may be moved is dragged by its riser, and what follows is drawn where it would then lie;
/// Escape lets it go. By keys: left and right choose a step, + and - move its day, with Ctrl by a week.
class PlanPreview : public QWidget {
    Q_OBJECT
  public:
    explicit PlanPreview(QWidget* parent = nullptr);

    void show_plans(const std::optional<Plan>& in_force, const std::optional<Plan>& shown,
                    const Formulary& formulary, Day today);
    /// Says what the whole and the dashed line are, where they are not the plan in force and the one on the
    /// table.
    void name_lines(const QString& whole, const QString& dashed);
    /// Draws no later day than this; empty: all of both plans.
    void look_until(std::optional<Day> last) { until_ = last; }
    /// The steps that may be moved; none, unless set.
    void allow_moving(std::vector<MovableStep> steps);
    /// Marks the step of a row, where it may be moved.
    void choose(int row);
    /// Where the riser of a movable step lies, for a pointer; empty where the row cannot be moved.
    std::optional<QPointF> riser_of(int row) const;
    QSize sizeHint() const override;

  signals:
    /// A step was chosen by the pointer or by keys.
    void chosen(int row);
    /// A step is to begin so many days later (earlier where negative).
    void move_wanted(int row, int days);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Drag {
        MovableStep step;
        double pressed_at = 0;
        int days = 0;
    };
    void lay_out();
    void show_dragged();
    void let_go();
    QRectF plot() const;
    double x(double day) const;
    double pixels_per_day() const;
    const MovableStep* movable_at(double x) const;
    const MovableStep* marked() const;
    void paint_marks(QPainter& painter) const;
    void paint_handle(QPainter& painter, Day starts, const QString& words) const;
    void paint_key(QPainter& painter) const;

    LogDoseChart* chart_;
    DoseChartData drawn_;
    std::size_t first_shown_ = 0;  ///< among the treads: that of the shown plan's first step
    std::vector<MovableStep> movable_;
    std::optional<int> chosen_, hovered_;
    std::optional<Drag> drag_;
    QString whole_, dashed_;
    std::optional<Day> until_;
    double first_ = 0, last_ = 1, today_ = 0;
    Day first_day_{}, last_day_{};
    bool as_diazepam_ = false, has_force_ = false;
};

}  // namespace evenfall::ui
