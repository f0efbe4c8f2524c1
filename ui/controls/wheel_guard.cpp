// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/wheel_guard.h"

#include <QAbstractSpinBox>
#include <QComboBox>
#include <QEvent>
#include <QSlider>

namespace evenfall::ui {

bool WheelGuard::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::Wheel) return false;
    auto* widget = qobject_cast<QWidget*>(watched);
    const bool holds_value = qobject_cast<QAbstractSpinBox*>(watched) || qobject_cast<QComboBox*>(watched) ||
                             qobject_cast<QSlider*>(watched);
    if (!holds_value || widget->hasFocus()) return false;
    event->ignore();  // the page beneath scrolls instead
    return true;
}

}  // namespace evenfall::ui
