// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/row_proofs.h"

#include <system_error>

namespace evenfall {

RowProofs::~RowProofs() {
    {
        const std::lock_guard lock(mutex_);
        next_ = filled_;
        all_read_ = true;
    }
    came_.notify_all();
    if (other_.valid()) other_.wait();
}

void RowProofs::run(sql::Statement& rows) {
    for (bool more = rows.step(); more;) {
        RowBatch& batch = empty_batch();
        for (batch.count = 0; more && batch.count < RowBatch::kMost; more = rows.step())
            read_row_into(batch.rows[batch.count++], rows);
        hand_over();
    }
    {
        const std::lock_guard lock(mutex_);
        all_read_ = true;
    }
    came_.notify_all();
    work();
    if (other_.valid()) other_.get();
}

RowBatch& RowProofs::empty_batch() {
    const std::lock_guard lock(mutex_);  // the other thread looks its batches up meanwhile
    if (filled_ == state_->batches.size()) state_->batches.emplace_back();
    return state_->batches[filled_];
}

void RowProofs::hand_over() {
    {
        const std::lock_guard lock(mutex_);
        ++filled_;
    }
    came_.notify_one();
    if (filled_ != kWorthAThread) return;
    try {
        other_ = std::async(std::launch::async, [this] { work(); });
    } catch (const std::system_error&) {
        // No thread is to be had: this one does it all.
    }
}

/// One that nobody has begun with, waited for while more may come; nothing after the last.
RowBatch* RowProofs::next() {
    std::unique_lock lock(mutex_);
    came_.wait(lock, [this] { return next_ < filled_ || all_read_; });
    return next_ < filled_ ? &state_->batches[next_++] : nullptr;
}

void RowProofs::work() {
    ProofSpace space;
    while (RowBatch* batch = next())
        for (std::size_t i = 0; i < batch->count; ++i)
            batch->damage[i] =
                prove_into(batch->events[i], batch->rows[i], state_->clinic, state_->epochs, space);
}

}  // namespace evenfall
