// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <functional>

#include "units/result.h"

namespace evenfall::ui {

/// Counts down the seconds until a passphrase may be tried again.
class UnlockWait : public QObject {
    Q_OBJECT
  public:
    using Tell = std::function<void(const Faults& faults, int seconds_left)>;
    explicit UnlockWait(Tell tell, QObject* parent = nullptr);

    /// Seconds that `store-wait` among the faults asks for; 0 where it is not among them.
    static int seconds_in(const Faults& faults);
    /// Tells at once and then each second what is left, the faults' own count with it; at last 0.
    void begin(Faults faults);
    bool is_waiting() const { return left_ > 0; }

  private:
    void tell();
    Tell tell_;
    Faults faults_;
    int left_ = 0;
    QTimer timer_;
};

}  // namespace evenfall::ui
