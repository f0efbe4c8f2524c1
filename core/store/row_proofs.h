// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <condition_variable>
#include <deque>
#include <future>
#include <mutex>

#include "store/state.h"

namespace evenfall {

/// Proves rows each by itself while more of them are read, some at a time, by whichever thread comes for
/// them: where the second core is busy with something else, the reading thread does it all once it has read.
class RowProofs {
  public:
    explicit RowProofs(StoreState& state) : state_(&state) {}
    RowProofs(const RowProofs&) = delete;
    RowProofs& operator=(const RowProofs&) = delete;
    ~RowProofs();  ///< what nobody has begun with is left

    /// Reads and proves all that a statement finds.
    void run(sql::Statement& rows);
    /// The batches that it filled, in the statement's order. They are the store's, which uses their memory
    /// again.
    std::size_t batches() const { return filled_; }
    RowBatch& batch(std::size_t number) { return state_->batches[number]; }

  private:
    /// Fewer batches than these are proved sooner than another thread begins.
    static constexpr std::size_t kWorthAThread = 3;

    RowBatch& empty_batch();
    void hand_over();
    void work();
    RowBatch* next();

    StoreState* state_;
    std::mutex mutex_;
    std::condition_variable came_;
    std::size_t filled_ = 0;
    std::size_t next_ = 0;
    bool all_read_ = false;
    std::future<void> other_;
};

}  // namespace evenfall
