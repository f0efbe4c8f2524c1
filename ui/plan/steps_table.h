// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>
#include <QTableView>

#include "plan/steps_model.h"

namespace evenfall::ui {

class Workbench;

/// Draws a step: its amount large, its pieces to shape with the words beside, signed rows on a ground of
/// their own and the outlook hatched at its edge.
class StepsDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    explicit StepsDelegate(const StepsModel& model, QObject* parent = nullptr);
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

  private:
    void paint_ground(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const;
    void paint_step(QPainter& painter, const QRectF& box, int row) const;
    double paint_daily(QPainter* painter, const QRectF& box, int row) const;
    void paint_edge(QPainter& painter, const QRectF& box, int row) const;
    void paint_flag_words(QPainter& painter, const QRectF& box, int row, double under) const;
    void paint_why(QPainter& painter, const QRectF& box, int row) const;
    QString flag_words(int row) const;
    double paint_pieces_at(QPainter* painter, const QRectF& box, const Step& step) const;
    const StepsModel& model_;
};

/// The steps as a table. Enter, Space, or a click on a row's rules opens their "Why?"; F2 or a double click
/// sets a step by hand; + and - move its day, with Ctrl by a week. It opens at the step in force. It never
/// needs scrolling sideways: where the room is narrow, "Why?" moves beneath the rules, then the day's amount
/// beneath the step.
class StepsTable : public QTableView {
    Q_OBJECT

  public:
    StepsTable(const Workbench& workbench, StepsModel& model, QWidget* parent = nullptr);
    /// Opens inputs, rules and sources of a row's flags; nothing where it has none.
    void open_why(int row);
    /// Brings the step in force, or the first to sign, into view and makes it the current row.
    void go_to_now();

  signals:
    void edit_wanted(int row);
    /// A step is to begin so many days later (earlier where negative).
    void move_wanted(int row, int days);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    const Workbench& workbench_;
    StepsModel& model_;
    QWidget* anchor_;
};

}  // namespace evenfall::ui
