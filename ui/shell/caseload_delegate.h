// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

#include "shell/caseload_model.h"

namespace evenfall::ui {

/// Draws a person of the caseload: shape, name, reason in words, and the line of the daily dose.
class CaseloadDelegate : public QStyledItemDelegate {
    Q_OBJECT
  public:
    explicit CaseloadDelegate(Workbench& workbench, QObject* parent = nullptr);
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

  private:
    void paint_heading(QPainter& painter, const QRectF& where, const QModelIndex& index) const;
    void paint_person(QPainter& painter, const QStyleOptionViewItem& option, const CaseloadLine& line) const;
    const Workbench& workbench_;
};

/// The daily dose against time as a small line: a linear scale from zero, a drawing without numbers.
void draw_spark(QPainter& painter, const QRectF& where, const std::vector<SparkPoint>& points);

}  // namespace evenfall::ui
