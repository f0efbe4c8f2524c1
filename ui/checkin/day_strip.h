// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <vector>

#include "casework/call.h"

namespace evenfall::ui {

/// The days since the last call, one cell each. P: all that are not said yet went as planned; X: this day did
/// not; Backspace takes a word back; left and right move. Days that the diary holds already are not asked.
class DayStrip : public QWidget {
    Q_OBJECT
  public:
    explicit DayStrip(QWidget* parent = nullptr);
    void set_days(std::vector<AskedDay> days, const std::map<Day, CallDay>& said);
    const std::map<Day, CallDay>& said() const { return said_; }
    void all_as_planned();
    /// "3 in the diary, 1 in the diary and off the plan, 7 as planned, 1 not as planned, 2 not said yet".
    QString summary() const;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override { return {200, sizeHint().height()}; }

  signals:
    void changed();
    void finished();  ///< everything is said

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

  private:
    CallDay said_of(const AskedDay& day) const;
    QRectF cell(std::size_t at) const;
    void say(CallDay said);
    void tell_name();
    std::vector<AskedDay> days_;
    std::map<Day, CallDay> said_;
    std::size_t at_ = 0;
};

}  // namespace evenfall::ui
