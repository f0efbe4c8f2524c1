// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/backup_keeper.h"

namespace evenfall::ui {

namespace {

/// How often the schedule is looked at; what it says is a rule.
constexpr std::chrono::minutes kLookEvery(10);

}  // namespace

BackupKeeper::BackupKeeper(Store& store, Rules rules, Now now, QObject* parent)
    : QObject(parent), store_(store), rules_(std::move(rules)), now_(std::move(now)), task_(new Task(this)) {
    connect(&schedule_, &QTimer::timeout, this, &BackupKeeper::look_at_schedule);
    connect(&parts_, &QTimer::timeout, this, &BackupKeeper::go_on);
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
}

void BackupKeeper::look_at_schedule() {
    if (!is_running() && backup_due(kept(), rules_, now_())) back_up_now();
}

void BackupKeeper::back_up_now() {
    if (is_running()) return;
    const std::string folder = kept().folder;
    if (folder.empty()) return fail({{"backup-no-folder", "", {}}});
    begun_ = now_();
    to_ = std::filesystem::path(folder) / backup_name(store_, begun_);
    auto run = BackupRun::begin(store_, to_);
    if (!run) return fail(run.faults());
    run_ = std::move(*run);
    parts_.start(0);
    emit progressed();
}

void BackupKeeper::go_on() {
    const auto done = run_->step();
    if (!done) return fail(done.faults());
    emit progressed();
    if (*done) prove();
}

void BackupKeeper::prove() {
    parts_.stop();
    proving_ = true;
    task_->run(run_->proof(), [this](const Result<Heads>& heads) { take_proof(heads); });
    run_.reset();
}

void BackupKeeper::take_proof(const Result<Heads>& heads) {
    proving_ = false;
    if (!heads) return fail(heads.faults());
    Safekeeping changed = kept();
    changed.last_backup = begun_;
    changed.last_file = to_.filename().string();
    write(changed);
    const auto keep = static_cast<std::size_t>(rules_.whole("backup-rotation", "keep"));
    if (const auto rotated = rotate_backups(store_, to_.parent_path(), keep); !rotated)
        emit failed(rotated.faults());
    emit finished();
}

void BackupKeeper::fail(const Faults& faults) {
    parts_.stop();
    run_.reset();
    proving_ = false;
    emit failed(faults);
}

}  // namespace evenfall::ui
