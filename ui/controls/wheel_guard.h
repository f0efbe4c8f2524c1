// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace evenfall::ui {

/// An event filter of the application: the wheel over a number box or a list box that has no focus scrolls
/// the page and never changes the value.
class WheelGuard : public QObject {
    Q_OBJECT
  public:
    using QObject::QObject;
    bool eventFilter(QObject* watched, QEvent* event) override;
};

}  // namespace evenfall::ui
