// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QTimer>
#include <memory>

#include "shell/task.h"
#include "store/backup_run.h"

namespace evenfall::ui {

/// Makes a copy of the store while the window is at work: a part at a time, then proved on another thread
/// before it counts. Lives on the store's thread; must not outlive the store.
class CopyInParts : public QObject {
    Q_OBJECT
  public:
    explicit CopyInParts(Store& store, QObject* parent = nullptr);
    ~CopyInParts() override;

    /// Begins one, unless one is under way.
    void begin(const std::filesystem::path& to, BackupRun::How how = {});
    bool is_running() const { return run_ != nullptr || task_->is_running(); }
    int percent() const { return run_ ? run_->percent() : is_running() ? 100 : 0; }

  signals:
    void progressed();
    void finished();
    void failed(const evenfall::Faults& faults);

  private:
    void go_on();
    void prove();
    void fail(const Faults& faults);

    Store& store_;
    QTimer parts_;
    std::unique_ptr<BackupRun> run_;
    Task* task_;
};

}  // namespace evenfall::ui
