// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QTimer>
#include <memory>

#include "casework/safekeeping.h"
#include "shell/task.h"
#include "store/backup_run.h"

namespace evenfall::ui {

/// Makes back-ups while the window is at work: a part at a time, by the schedule or when asked, each proved
/// before it counts, the oldest making room. Lives on the store's thread; must not outlive the store.
class BackupKeeper : public QObject {
    Q_OBJECT
  public:
    using Now = std::function<Instant()>;
    BackupKeeper(Store& store, Rules rules, Now now, QObject* parent = nullptr);
    ~BackupKeeper() override;

    Safekeeping kept() const;
    std::vector<Flag> reminders() const { return safekeeping_flags(kept(), rules_, now_()); }
    void choose_folder(const std::filesystem::path& folder);
    void note_proof(bool whole);
    /// Begins one, unless one is under way. Without a folder: `backup-no-folder`.
    void back_up_now();
    bool is_running() const { return run_ != nullptr || proving_; }
    int percent() const { return run_ ? run_->percent() : proving_ ? 100 : 0; }
    Instant now() const { return now_(); }

  signals:
    void progressed();
    void finished();
    void failed(const evenfall::Faults& faults);

  private:
    void look_at_schedule();
    void go_on();
    void prove();
    void take_proof(const Result<Heads>& heads);
    void fail(const Faults& faults);
    void write(const Safekeeping& kept);

    Store& store_;
    Rules rules_;
    Now now_;
    QTimer schedule_;
    QTimer parts_;
    std::unique_ptr<BackupRun> run_;
    std::filesystem::path to_;
    Instant begun_{};
    bool proving_ = false;
    Task* task_;
};

}  // namespace evenfall::ui
