// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QAccessible>
#include <QLabel>
#include <QWidget>

namespace evenfall::ui {

/// Visible widgets that take the focus and have no name for a screen reader, as text for a failure.
inline QStringList nameless(QWidget& root) {
    QStringList found;
    for (QWidget* each : root.findChildren<QWidget*>()) {
        if (!each->isVisible() || each->focusPolicy() == Qt::NoFocus || each->focusProxy()) continue;
        if (each->objectName() == QStringLiteral("qt_spinbox_lineedit")) continue;
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(each);
        if (face && !face->text(QAccessible::Name).isEmpty()) continue;
        found << QString::fromLatin1(each->metaObject()->className()) + QStringLiteral(" in ") +
                     QString::fromLatin1(each->parentWidget()->metaObject()->className());
    }
    return found;
}

/// Visible labels and buttons whose words do not fit in them; a label that shortens itself on purpose is left
/// out.
inline QStringList cut_off(QWidget& root) {
    QStringList found;
    for (QLabel* label : root.findChildren<QLabel*>()) {
        if (!label->isVisible() || label->inherits("evenfall::ui::ElidedLabel") || label->text().isEmpty())
            continue;
        const int width = label->contentsRect().width();
        const QSize needed = label->wordWrap()
                                 ? label->fontMetrics()
                                       .boundingRect(0, 0, width, 10000, Qt::TextWordWrap, label->text())
                                       .size()
                                 : label->fontMetrics().size(0, label->text());
        if (needed.width() > width + 1 || needed.height() > label->contentsRect().height() + 1)
            found << label->text();
    }
    for (QAbstractButton* button : root.findChildren<QAbstractButton*>())
        if (button->isVisible() && !button->inherits("evenfall::ui::PressPill") &&
            !button->inherits("QToolButton") && !button->text().isEmpty() &&
            button->fontMetrics().horizontalAdvance(button->text()) > button->width())
            found << button->text();
    return found;
}

}  // namespace evenfall::ui
