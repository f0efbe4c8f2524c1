// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractScrollArea>
#include <QPixmap>
#include <array>
#include <map>
#include <optional>
#include <vector>

#include "diary/dose_marks.h"
#include "diary/sheet.h"
#include "theme/theme.h"

namespace evenfall::ui {

/// Something in a day that can be chosen.
struct DiarySpot {
    enum class Kind { day, dose, missed, score };
    Kind kind = Kind::day;
    Day day{};
    std::size_t index = 0;  ///< of the row's entries, of its intended doses, or of the sheet's items

    bool operator==(const DiarySpot&) const = default;
};

/// The diary as rows of days, the newest at the top: doses over the 24 hours of the diary day, and beside
/// them the symptoms. Rows out of sight are not touched. Arrow keys choose; Enter asks to open the day.
class DiaryView : public QAbstractScrollArea {
    Q_OBJECT

  public:
    explicit DiaryView(QWidget* parent = nullptr);

    void show_sheet(Sheet sheet);
    const Sheet& sheet() const { return sheet_; }

    const std::optional<DiarySpot>& chosen() const { return chosen_; }
    void choose(std::optional<DiarySpot> spot);
    /// Chooses a day and brings it into sight. Returns whether the diary holds it.
    bool choose_day(Day day);
    /// What can be chosen in a day, from the left.
    std::vector<DiarySpot> spots_of(Day day) const;
    /// The sentence that a screen reader hears about what is chosen.
    void set_said(const QString& says);

  signals:
    void choice_changed();
    void day_opened(evenfall::Day day);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void measure();
    double header_height() const;
    std::size_t row_at(int from_top) const {
        return sheet_.rows.size() - 1 - static_cast<std::size_t>(from_top);
    }
    double y_of(std::size_t row) const;
    double x_of(int minutes) const;
    double cell_x(std::size_t item) const;
    double burden_x(double burden) const;
    QRectF spot_rect(const DiarySpot& spot) const;
    std::optional<DiarySpot> spot_at(const QPointF& point) const;
    void bring_into_sight(std::size_t row);
    void move_day(int by);
    void move_spot(int by);

    void paint_header(QPainter& painter);
    void paint_row(QPainter& painter, std::size_t row);
    void paint_day_name(QPainter& painter, std::size_t row, double y);
    void paint_doses(QPainter& painter, const DayRow& row, double y);
    void paint_bands(QPainter& painter, const DayRow& row, double y);
    void paint_scores(QPainter& painter, std::size_t row, double y);
    void paint_burden(QPainter& painter, std::size_t row, double y);
    void paint_mark(QPainter& painter, Day day, double y);

    /// What is drawn again and again, drawn once for the size, the screen and the theme in force.
    struct Stamps {
        double cell = 0, ratio = 0;
        ThemeKind theme = ThemeKind::light;
        QFont font;
        std::array<QPixmap, 11> scores;
        std::map<DoseMark, QPixmap> marks;
    };
    void renew_stamps(const QPainter& painter);
    /// Puts a stamp in its place, drawn with `draw(painter, box)` the first time.
    template <class Draw>
    void put_stamp(QPainter& painter, QPixmap& stamp, const QRectF& box, Draw draw);

    Sheet sheet_;
    Stamps stamps_;
    std::optional<DiarySpot> chosen_;
    double left_ = 0, right_ = 0, grid_ = 0, cell_ = 0;  // columns of the doses, then of the symptoms
    double burden_ = 0;                                  // where the line of the burden begins
};

}  // namespace evenfall::ui
