// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/backup_keeper.h"

#include <utility>

namespace evenfall::ui {

namespace {

/// How often the schedule is looked at; what it says is a rule.
constexpr std::chrono::minutes kLookEvery(10);

}  // namespace

BackupKeeper::BackupKeeper(Store& store, RulesNow rules, Now now, QObject* parent)
    : QObject(parent),
      store_(store),
      rules_(std::move(rules)),
      now_(std::move(now)),
      copy_(new CopyInParts(store, this)) {
    connect(&schedule_, &QTimer::timeout, this, &BackupKeeper::look_at_schedule);
    connect(copy_, &CopyInParts::progressed, this, &BackupKeeper::progressed);
    connect(copy_, &CopyInParts::finished, this, [this] { note([this] { take_copy(); }); });
    connect(copy_, &CopyInParts::failed, this,
            [this](const Faults& faults) { note([this, faults] { note_failure(faults); }); });
    schedule_.start(kLookEvery);
    QTimer::singleShot(std::chrono::seconds(5), this, &BackupKeeper::look_at_schedule);
}

BackupKeeper::~BackupKeeper() = default;

Safekeeping BackupKeeper::kept() const {
    const auto kept = read_safekeeping(store_);
    return kept ? *kept : Safekeeping{};
}

void BackupKeeper::write(const Safekeeping& kept) {
    if (const auto written = write_safekeeping(store_, kept); !written) emit failed(written.faults());
}

void BackupKeeper::choose_folder(const std::filesystem::path& folder) {
    Safekeeping changed = kept();
    changed.folder = folder.string();
    write(changed);
    emit finished();
}

void BackupKeeper::note_proof(bool whole) {
    Safekeeping changed = kept();
    changed.last_proof = now_();
    changed.proof_whole = whole;
    write(changed);
    emit looked();
}

void BackupKeeper::look_at_schedule() {
    if (store_.locked()) return;  // what was chosen is sealed
    if (!is_running() && backup_due(kept(), rules_(), now_())) back_up_now();
    emit looked();
}

void BackupKeeper::back_up_now() {
    if (is_running()) return;
    const std::string folder = kept().folder;
    if (folder.empty()) {
        emit failed({{"backup-no-folder", "", {}}});
        return;
    }
    begun_ = now_();
    to_ = std::filesystem::path(folder) / backup_name(store_, begun_);
    copy_->begin(to_);
}

/// A copy that was begun is finished without a key; what to note of it waits until the window is unlocked.
void BackupKeeper::note(std::function<void()> act) {
    if (!store_.locked()) return act();
    waits_ = std::move(act);
}

void BackupKeeper::unlocked() {
    if (const auto act = std::exchange(waits_, {})) act();
    look_at_schedule();
}

void BackupKeeper::take_copy() {
    Safekeeping changed = kept();
    changed.last_backup = begun_;
    changed.last_file = to_.filename().string();
    changed.last_failure = {};
    changed.failure.clear();
    write(changed);
    const auto keep = static_cast<std::size_t>(rules_().whole("backup-rotation", "keep"));
    if (const auto rotated = rotate_backups(store_, to_.parent_path(), keep); !rotated)
        emit failed(rotated.faults());
    emit finished();
}

void BackupKeeper::note_failure(const Faults& faults) {
    Safekeeping changed = kept();
    changed.last_failure = now_();
    changed.failure = faults.front().id;
    write(changed);
    emit failed(faults);
}

}  // namespace evenfall::ui
