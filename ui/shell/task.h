// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <functional>
#include <thread>

namespace evenfall::ui {

/// Runs one piece of work at a time off the window's thread, and hands what it made back to it. The work must
/// own or copy all that it uses. Destruction waits for the work: deriving a key takes about a second and
/// cannot be cut short.
class Task : public QObject {
    Q_OBJECT
  public:
    using QObject::QObject;

    bool is_running() const { return running_; }

    /// `work` runs on a thread of its own; `done` gets its value on the window's thread.
    template <class Work, class Done>
    void run(Work work, Done done) {
        if (running_) return;
        running_ = true;
        thread_ = std::jthread([this, work = std::move(work), done = std::move(done)]() mutable {
            auto made = std::make_shared<decltype(work())>(work());
            QMetaObject::invokeMethod(
                this,
                [this, made, done = std::move(done)]() mutable {
                    running_ = false;
                    done(std::move(*made));
                },
                Qt::QueuedConnection);
        });
    }

  private:
    bool running_ = false;
    std::jthread thread_;
};

}  // namespace evenfall::ui
