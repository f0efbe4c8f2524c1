// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainter>
#include <QString>
#include <QStyledItemDelegate>

namespace evenfall::ui {

// Inter's default digits are proportional and Qt before 6.7 cannot ask a font for its tabular ones; another
// face for the numbers would look foreign. So columns of numbers are set here, each digit in a cell as wide
// as the widest one.

/// The width of `text` with digits of one width.
qreal tabular_width(const QFont& font, const QString& text);
/// Draws one line with digits of one width, in the painter's font and pen.
void draw_tabular(QPainter& painter, const QRectF& where, Qt::Alignment alignment, const QString& text);

/// Draws the cells of a table with digits of one width.
class TabularDelegate : public QStyledItemDelegate {
    Q_OBJECT
  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace evenfall::ui
