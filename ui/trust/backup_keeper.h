// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QTimer>
#include <functional>

#include "casework/safekeeping.h"
#include "trust/copy_in_parts.h"

namespace evenfall::ui {

/// Makes back-ups while the window is at work, by the schedule or when asked, each proved before it counts,
/// the oldest making room. What fails is kept in the store until one comes about. Lives on the store's
/// thread; must not outlive the store.
class BackupKeeper : public QObject {
    Q_OBJECT
  public:
    using Now = std::function<Instant()>;
    /// The rules in force, asked for each time: a clinic may change them while the window is open.
    using RulesNow = std::function<const Rules&()>;
    BackupKeeper(Store& store, RulesNow rules, Now now, QObject* parent = nullptr);
    ~BackupKeeper() override;

    Safekeeping kept() const;
    std::vector<Flag> reminders() const { return safekeeping_flags(kept(), rules_(), now_()); }
    void choose_folder(const std::filesystem::path& folder);
    void note_proof(bool whole);
    /// Begins one, unless one is under way. Without a folder: `backup-no-folder`.
    void back_up_now();
    /// Begins one where the schedule asks for it; every ten minutes it asks itself.
    void look_at_schedule();
    /// Also while what was copied waits to be noted.
    bool is_running() const { return copy_->is_running() || waits_; }
    /// The keys are back: notes what waited, and looks at the schedule.
    void unlocked();
    int percent() const { return copy_->percent(); }
    Instant now() const { return now_(); }

  signals:
    void progressed();
    void finished();
    void failed(const evenfall::Faults& faults);
    /// What it would remind of may be another now.
    void looked();

  private:
    void note(std::function<void()> act);
    void take_copy();
    void note_failure(const Faults& faults);
    void write(const Safekeeping& kept);

    Store& store_;
    RulesNow rules_;
    Now now_;
    QTimer schedule_;
    CopyInParts* copy_;
    std::function<void()> waits_;  ///< to be noted once the store is unlocked
    std::filesystem::path to_;
    Instant begun_{};
};

}  // namespace evenfall::ui
