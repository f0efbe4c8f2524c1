// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "course/lane.h"

class QAreaSeries;
class QLineSeries;

namespace evenfall::ui {

class LaneChart;
class LogDoseChart;

/// Steps as blocks with their daily amount: what is past or signed is filled, today's is dark, the outlook
/// hatched, a hold has a dotted edge and the word.
class StepsLane : public Lane {
    Q_OBJECT
  public:
    explicit StepsLane(const TimeAxis& axis, QWidget* parent = nullptr);
    void show_scene(const CourseScene& scene);
    QRectF item_rect(std::size_t index) const override;
    QSize sizeHint() const override { return {600, 74}; }

  protected:
    void paint_lane(QPainter& painter) override;

  private:
    void paint_block(QPainter& painter, std::size_t index, const QFont& font) const;
    QString amount_of_block(std::size_t index) const;
    /// The largest face in which every visible amount fits its block; the smallest where none does.
    QFont block_font() const;
    void paint_upright(QPainter& painter, const QRectF& box, const QString& amount, bool outlook) const;
    void paint_agreed(QPainter& painter) const;
    Course course_;
    double today_width_ = 0;
};

/// The daily amount on a log scale: planned stairs, outlook, taken dots, the OFF shelf.
class DoseLane : public Lane {
    Q_OBJECT
  public:
    explicit DoseLane(const TimeAxis& axis, QWidget* parent = nullptr);
    void show_scene(const CourseScene& scene);
    void axis_moved() override;
    QRectF item_rect(std::size_t index) const override;
    const LogDoseChart& chart() const { return *chart_; }
    QSize sizeHint() const override { return {600, 250}; }

  protected:
    void paint_lane(QPainter& painter) override;
    void paint_gutter(QPainter& painter) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void lay_chart();
    LogDoseChart* chart_;
    std::vector<Dose> item_amounts_;
    std::vector<Stretch> stretches_;
};

/// The modelled level as a band with a middle line, in percent of before the taper.
class LevelLane : public Lane {
    Q_OBJECT
  public:
    explicit LevelLane(const TimeAxis& axis, QWidget* parent = nullptr);
    /// `computing` says so in the lane while there is nothing yet.
    void show_curve(const LevelCurve& curve, bool computing);
    /// How far a long computation is, 0 to 100.
    void show_progress(int percent);
    void axis_moved() override;
    QSize sizeHint() const override { return {600, 116}; }

  protected:
    void paint_lane(QPainter& painter) override;
    void paint_gutter(QPainter& painter) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void lay_chart();
    QString words() const;
    double level_at(double x_from) const;
    /// The words of the newest cut, or of why there is no curve.
    QRectF paint_words(QPainter& painter) const;
    /// A gauge at each cut of how much of it has arrived; its numbers where they fit.
    void paint_cuts(QPainter& painter, const QRectF& taken) const;
    LaneChart* chart_;
    QLineSeries* low_;
    QLineSeries* high_;
    QLineSeries* middle_;
    QAreaSeries* band_;
    LevelCurve curve_;
    bool computing_ = false;
    int progress_ = 0;
    double most_ = 110;
};

/// Symptoms as a heat strip, one row each, a numeral in each cell.
class SymptomLane : public Lane {
    Q_OBJECT
  public:
    static constexpr std::size_t kMostRows = 6;
    static constexpr int kRowHeight = 24;

    explicit SymptomLane(const TimeAxis& axis, QWidget* parent = nullptr);
    void show_scene(const CourseScene& scene);
    void axis_moved() override;
    QRectF item_rect(std::size_t index) const override;
    QSize sizeHint() const override;
    /// 1, or the weeks that a cell stands for, in days: the finest whose cells are wide enough for a numeral.
    int days_per_cell() const { return days_per_cell_; }
    std::size_t rows() const { return rows_.size(); }

  protected:
    void paint_lane(QPainter& painter) override;
    void paint_gutter(QPainter& painter) override;

  private:
    void regroup();
    struct Cell {
        std::size_t row = 0;
        SymptomCell value;
    };
    std::vector<SymptomRow> rows_;
    std::vector<Cell> cells_;  ///< as the items
    int days_per_cell_ = 7;
};

/// Visits, calls, papers, signatures and counts as small drawings, each with a name.
class ContactLane : public Lane {
    Q_OBJECT
  public:
    explicit ContactLane(const TimeAxis& axis, QWidget* parent = nullptr);
    void show_scene(const CourseScene& scene);
    void axis_moved() override;
    QRectF item_rect(std::size_t index) const override;
    QSize sizeHint() const override { return {600, 70}; }

  protected:
    void paint_lane(QPainter& painter) override;

  private:
    void arrange();
    std::vector<ContactMark::Kind> kinds_;
    struct Place {
        QPointF at;         ///< top left of the drawing, from the plot's left
        bool drawn = true;  ///< false: it lies under the drawing that stands there already
        int more = 0;       ///< how many lie under this one
    };
    std::vector<Place> places_;
};

/// The labels beneath all lanes, and the word "today".
class TimeScale : public QWidget {
    Q_OBJECT
  public:
    explicit TimeScale(const TimeAxis& axis, QWidget* parent = nullptr);
    void set_today(Day today) { today_ = today; }
    QSize sizeHint() const override { return {600, 26}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    const TimeAxis& axis_;
    Day today_{};
};

}  // namespace evenfall::ui
