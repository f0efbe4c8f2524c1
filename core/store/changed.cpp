// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "store/logs.h"

namespace evenfall {
namespace {

/// Whether every head that was known is still the row that it was.
bool still_there(StoreState& state, const Heads& known) {
    for (const auto& [log, head] : known) {
        const auto bytes = from_hex(log);
        if (!bytes || to_hex(tail_at(state.db, *bytes, head.sequence).hash) != head.hash) return false;
    }
    return !known.empty();
}

/// The keys of patients with rows beyond what was known. The index by log holds them: no row is read.
std::set<Bytes> keys_beyond(StoreState& state, const Heads& known, const Heads& now) {
    std::set<Bytes> keys;
    for (const auto& [log, head] : now) {
        const auto before = known.find(log);
        const std::int64_t since = before == known.end() ? 0 : before->second.sequence;
        if (since == head.sequence) continue;
        const Bytes bytes = from_hex(log).value_or(Bytes());
        sql::Use rows = state.db.prepared("SELECT DISTINCT patient FROM events WHERE log=?1 AND sequence>?2");
        rows->bind_blob(1, bytes).bind(2, since);
        while (rows->step()) keys.emplace(rows->bytes(0));
    }
    return keys;
}

}  // namespace

Result<Changed> Store::changed_since(const Heads& known, const std::vector<PatientId>& among) {
    return guarded<Changed>([&]() -> Result<Changed> {
        Changed changed;
        changed.heads = heads_of(state_->db);
        changed.follows = still_there(*state_, known);
        if (!changed.follows) return changed;
        std::set<Bytes> keys = keys_beyond(*state_, known, changed.heads);
        changed.clinic = keys.erase(state_->patient_key({})) > 0;
        keys.erase(state_->patient_key(PatientId(kAccessLog)));
        for (const PatientId& patient : among)
            if (keys.erase(state_->patient_key(patient)) > 0) changed.patients.push_back(patient);
        changed.others = !keys.empty();
        return changed;
    });
}

}  // namespace evenfall
