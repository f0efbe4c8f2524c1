// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/proof.h"

namespace evenfall {

void LogProof::begin(const Row& row) {
    last_ = Tail{row.log, 0, Bytes(32, '\0'), 0};
    numbers_.clear();
    chain_whole_ = true;
    from_start_ = true;
}

void LogProof::leave_unsigned(Faults& damage) {
    for (const Row& each : unsigned_) damage.push_back(row_fault("row-unsigned", each));
    unsigned_.clear();
}

bool LogProof::check_place(const Row& row, RowVerdict& verdict) {
    if (row.sequence != last_.sequence + 1) {
        verdict.damage.push_back(row_fault(
            "rows-missing", row,
            {{"from", std::to_string(last_.sequence + 1)}, {"to", std::to_string(row.sequence - 1)}}));
        return false;
    }
    if (row.previous != last_.hash) {
        verdict.damage.push_back(row_fault("row-link-broken", row));
        return false;
    }
    if (row.clock <= last_.clock_seen) verdict.damage.push_back(row_fault("row-clock-wrong", row));
    return true;
}

std::int64_t LogProof::number_before(const Row& row) const {
    if (const auto last = numbers_.find(row.patient); last != numbers_.end()) return last->second;
    if (from_start_) return 0;
    sql::Use last = state_->db.prepared(
        "SELECT number FROM events WHERE patient=?1 AND log=?2 AND clock<?3 ORDER BY clock DESC LIMIT 1");
    const bool found = last->bind_blob(1, row.patient).bind_blob(2, row.log).bind(3, row.clock).step();
    return found ? last->integer(0) : 0;
}

void LogProof::check_number(const Row& row, RowVerdict& verdict) {
    // After damage in the log numbers may be off: the damage itself is reported.
    if (chain_whole_ && verdict.damage.empty() && row.number != number_before(row) + 1)
        verdict.damage.push_back(row_fault("row-number-wrong", row));
    numbers_[row.patient] = row.number;
}

void LogProof::check_signature(const Row& row, RowVerdict& verdict) {
    if (!unsigned_.empty() && unsigned_.back().author != row.author) leave_unsigned(verdict.earlier);
    const bool stands_alone = verdict.event && (verdict.event->event.kind == kUserGranted ||
                                                verdict.event->event.kind == kUserClosed);
    if (row.signature.empty()) {
        if (stands_alone)
            verdict.damage.push_back(row_fault("row-unsigned", row));
        else
            unsigned_.push_back(row);
    } else if (signature_holds(row, *grants_, state_->founding_key)) {
        verdict.signature_verified = true;
        unsigned_.clear();
    } else {
        verdict.damage.push_back(row_fault("row-signature-wrong", row));
        leave_unsigned(verdict.earlier);
    }
}

RowVerdict LogProof::follow(const Row& row) {
    RowVerdict verdict;
    if (row.log != last_.log) {
        leave_unsigned(verdict.earlier);
        begin(row);
    }
    const bool in_place = check_place(row, verdict);
    Proved proved = prove(row, state_->clinic, state_->epochs);
    if (proved.damage) verdict.damage.push_back(*proved.damage);
    if (proved.event && state_->patient_key(proved.event->event.patient) != row.patient)
        verdict.damage.push_back(row_fault("row-misplaced", row));
    // A signature covers earlier rows only through links that hold, and through rows that are what was
    // hashed.
    if (!in_place || !proved.event) leave_unsigned(verdict.earlier);
    verdict.event = std::move(proved.event);
    check_number(row, verdict);
    if (verdict.event) check_signature(row, verdict);
    last_ = {row.log, row.sequence, row.hash, row.clock};
    chain_whole_ = chain_whole_ && verdict.damage.empty();
    return verdict;
}

Faults LogProof::finish() {
    Faults damage;
    leave_unsigned(damage);
    return damage;
}

}  // namespace evenfall
