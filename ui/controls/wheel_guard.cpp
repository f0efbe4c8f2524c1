// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/wheel_guard.h"

#include <QAbstractSpinBox>
#include <QComboBox>
#include <QEvent>
#include <QSlider>

namespace evenfall::ui {

namespace {

bool holds_a_value(const QObject* watched) {
    return qobject_cast<const QAbstractSpinBox*>(watched) || qobject_cast<const QComboBox*>(watched) ||
           qobject_cast<const QSlider*>(watched);
}

}  // namespace

bool WheelGuard::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::Wheel && event->type() != QEvent::Polish) return false;
    if (!holds_a_value(watched)) return false;
    auto* widget = qobject_cast<QWidget*>(watched);
    if (event->type() == QEvent::Polish) {
        // The wheel would give the focus before this filter is asked.
        if (widget->focusPolicy() == Qt::WheelFocus) widget->setFocusPolicy(Qt::StrongFocus);
        return false;
    }
    event->ignore();  // the page beneath scrolls instead
    return true;
}

}  // namespace evenfall::ui
