// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <set>
#include <vector>

#include "store/state.h"

namespace evenfall {

/// What was found about one row within its log.
struct RowVerdict {
    std::optional<StoredEvent> event;  ///< where its seal holds
    Faults damage;
    Faults earlier;  ///< about rows before this one that turn out to be covered by no signature
    bool signature_verified = false;
};

/// Proves rows that come log by log in sequence: each by itself, its link to the row before, its number among
/// the patient's rows, its clock, and its author's signature, which may stand on a later row of the same
/// author.
class LogProof {
  public:
    /// `start` is where the log was proved up to already; empty for the whole of it.
    LogProof(StoreState& state, const Grants& grants, Tail start)
        : state_(&state), grants_(&grants), last_(std::move(start)) {}

    RowVerdict follow(const Row& row);
    /// To be called after the last row: rows that no signature covers.
    Faults finish();

  private:
    void begin(const Row& row);
    bool check_place(const Row& row, RowVerdict& verdict);
    void check_number(const Row& row, RowVerdict& verdict);
    void check_signature(const Row& row, RowVerdict& verdict);
    std::int64_t number_before(const Row& row) const;
    void leave_unsigned(Faults& damage);

    StoreState* state_;
    const Grants* grants_;
    Tail last_;
    bool from_start_ = false;  ///< the log's first row was seen
    bool chain_whole_ = true;  ///< nothing was wrong in this log so far
    std::map<Bytes, std::int64_t> numbers_;
    std::vector<Row> unsigned_;
};

}  // namespace evenfall
