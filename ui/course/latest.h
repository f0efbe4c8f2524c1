// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QMetaObject>
#include <QObject>
#include <atomic>
#include <cstdint>
#include <functional>
#include <memory>
#include <stop_token>
#include <thread>
#include <utility>
#include <vector>

namespace evenfall::ui {

/// Runs a computation beside the window's thread and hands over the newest result alone: starting again asks
/// the computation under way to stop and drops whatever it still brings. Starting never waits. All calls on
/// one thread.
template <class Value>
class Latest {
  public:
    using Job = std::function<Value(std::stop_token)>;

    /// `done` is called on the thread of this object, with the result of the newest start.
    explicit Latest(std::function<void(Value)> done) : done_(std::move(done)) {}
    ~Latest() { stop(); }  // the threads join as they are destroyed, before `receiver_` goes
    Latest(const Latest&) = delete;
    Latest& operator=(const Latest&) = delete;

    void start(Job job) {
        stop();
        std::erase_if(runs_, [](const auto& run) { return run->finished.load(); });
        busy_ = true;
        runs_.push_back(std::make_unique<Run>());
        Run* run = runs_.back().get();
        run->thread =
            std::jthread([this, run, job = std::move(job), number = number_](std::stop_token token) {
                std::shared_ptr<Value> value;
                try {
                    value = std::make_shared<Value>(job(token));
                } catch (const std::exception& error) {
                    // A fault of ours must not take the window down; the page keeps what it showed.
                    qCritical("a computation failed: %s", error.what());
                    QMetaObject::invokeMethod(
                        &receiver_, [this] { busy_ = false; }, Qt::QueuedConnection);
                }
                if (value && !token.stop_requested())
                    QMetaObject::invokeMethod(
                        &receiver_, [this, value, number] { deliver(number, std::move(*value)); },
                        Qt::QueuedConnection);
                run->finished.store(true);
            });
    }

    /// Drops what is under way.
    void stop() {
        ++number_;
        busy_ = false;
        for (const auto& run : runs_) run->thread.request_stop();
    }

    /// Whether a result is still to come.
    bool busy() const { return busy_; }

  private:
    struct Run {
        std::atomic<bool> finished{false};
        std::jthread thread;
    };

    void deliver(std::uint64_t number, Value value) {
        if (number != number_) return;
        busy_ = false;
        done_(std::move(value));
    }

    std::function<void(Value)> done_;
    std::uint64_t number_ = 0;
    bool busy_ = false;
    QObject receiver_;
    std::vector<std::unique_ptr<Run>> runs_;
};

}  // namespace evenfall::ui
