// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QPointer>
#include <QTimer>
#include <QWidget>
#include <functional>

#include "rules/texts.h"
#include "units/result.h"

class QPushButton;

namespace evenfall::ui {

class Label;
class UnlockWait;

/// Proves the worker's passphrase. It may take a second; the cover runs it off the window's thread, so it
/// must not touch anything that the window uses.
using Prove = std::function<Result<Done>(const std::string& passphrase)>;

/// Covers the whole window and shows nothing of anyone. Whatever was being written stays beneath it.
class LockCover : public QWidget {
    Q_OBJECT
  public:
    LockCover(const Texts& texts, const QString& worker, Prove prove, QWidget* window);
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
    void judge(const Result<Done>& result);
    void show_faults(const Faults& faults);
    const Texts& texts_;
    Prove prove_;
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
