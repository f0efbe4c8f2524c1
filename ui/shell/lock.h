// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QPointer>
#include <QTimer>
#include <QWidget>
#include <functional>

#include "rules/texts.h"
#include "store/store.h"

class QPushButton;

namespace evenfall::ui {

class Label;
class UnlockWait;

/// Proves the worker's passphrase. It may take a second; it is run off the window's thread, so it must not
/// touch anything that the window uses.
using Prove = std::function<Result<Done>(const std::string& passphrase)>;

/// How a window is locked: `forget` lets the keys go, `unlock` takes the passphrase off the window's thread,
/// and what that returns puts the keys back on it.
struct Lock {
    Store::Unlock unlock;
    std::function<void()> forget;

    /// A lock that has no keys to forget and only asks for the passphrase.
    static Lock of(Prove prove);
};

/// Covers the whole window, shows nothing of anyone, and has the keys forgotten. Whatever was being written
/// stays beneath it: what is kept sealed is sealed before the keys go.
class LockCover : public QWidget {
    Q_OBJECT
  public:
    LockCover(const Texts& texts, const QString& worker, Lock lock, QWidget* window);
    ~LockCover() override;
    void cover();
    bool is_covering() const { return isVisible(); }
    QLineEdit* passphrase() { return passphrase_; }

  signals:
    void uncovered();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void try_passphrase();
    void judge(const Result<std::function<Result<Done>()>>& unlocked);
    void show_faults(const Faults& faults);
    const Texts& texts_;
    Lock lock_;
    QWidget* window_;
    QLineEdit* passphrase_;
    QPushButton* open_;
    Label* says_;
    QPointer<QWidget> focus_before_;
    class Task* task_;
    UnlockWait* wait_;
};

/// Tells when nobody has touched the window for a while.
class IdleWatch : public QObject {
    Q_OBJECT
  public:
    explicit IdleWatch(std::chrono::minutes after, QObject* parent = nullptr);

  signals:
    void idle();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QTimer timer_;
};

}  // namespace evenfall::ui
