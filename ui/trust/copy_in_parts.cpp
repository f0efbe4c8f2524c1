// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/copy_in_parts.h"

namespace evenfall::ui {

CopyInParts::CopyInParts(Store& store, QObject* parent)
    : QObject(parent), store_(store), task_(new Task(this)) {
    connect(&parts_, &QTimer::timeout, this, &CopyInParts::go_on);
}

CopyInParts::~CopyInParts() = default;

void CopyInParts::begin(const std::filesystem::path& to, BackupRun::How how) {
    if (is_running()) return;
    auto run = BackupRun::begin(store_, to, how);
    if (!run) return fail(run.faults());
    run_ = std::move(*run);
    parts_.start(0);
    emit progressed();
}

void CopyInParts::go_on() {
    const auto done = run_->step();
    if (!done) return fail(done.faults());
    emit progressed();
    if (*done) prove();
}

void CopyInParts::prove() {
    parts_.stop();
    task_->run(run_->proof(), [this](const Result<Heads>& heads) {
        if (!heads) return fail(heads.faults());
        emit finished();
    });
    run_.reset();
}

void CopyInParts::fail(const Faults& faults) {
    parts_.stop();
    run_.reset();
    emit failed(faults);
}

}  // namespace evenfall::ui
