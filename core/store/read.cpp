// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "store/logs.h"
#include "store/row_proofs.h"

namespace evenfall {

namespace {

/// Checks that rows of one patient follow each other: no number is missing within a log, and rows that are
/// neighbours in their log are linked.
class Links {
  public:
    /// The row must stay where it is while others follow.
    std::optional<Fault> follow(const Row& row) {
        const Row*& last = lasts_[row.log];
        std::optional<Fault> fault;
        const std::int64_t number = last == nullptr ? 0 : last->number;
        if (row.number != number + 1)
            fault =
                row_fault("row-missing-before", row, {{"missing", std::to_string(row.number - number - 1)}});
        else if (last != nullptr && row.sequence == last->sequence + 1 && row.previous != last->hash)
            fault = row_fault("row-link-broken", row);
        last = &row;
        return fault;
    }

  private:
    std::map<std::string_view, const Row*> lasts_;
};

Salvage salvage_of(StoreState& state, const PatientId& patient) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    const Bytes key = state.patient_key(patient);
    sql::Use rows = state.db.prepared(select);
    RowProofs proofs(state);
    proofs.run(rows->bind_blob(1, key));
    Salvage salvage;
    salvage.events.reserve(proofs.batches() * RowBatch::kMost);
    Links links;
    for (std::size_t number = 0; number < proofs.batches(); ++number) {
        RowBatch& batch = proofs.batch(number);
        for (std::size_t i = 0; i < batch.count; ++i) {
            if (auto fault = links.follow(batch.rows[i])) salvage.damage.push_back(std::move(*fault));
            if (batch.damage[i])
                salvage.damage.push_back(std::move(*batch.damage[i]));
            else if (batch.events[i].event.patient != patient)
                salvage.damage.push_back(row_fault("row-misplaced", batch.rows[i]));
            else
                salvage.events.push_back(std::move(batch.events[i]));
        }
    }
    state.grants.mark_void(salvage.events);
    return salvage;
}

/// The patient of the first row under a key that can be read; a stand-in where none can.
PatientId patient_under(StoreState& state, const Bytes& key) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    sql::Use rows = state.db.prepared(select);
    rows->bind_blob(1, key);
    while (rows->step())
        if (Proved proved = prove(read_row(*rows), state.clinic, state.epochs);
            proved.event && state.patient_key(proved.event->event.patient) == key)
            return std::move(proved.event->event.patient);
    return stand_in(key);
}

}  // namespace

Result<Salvage> Store::read_what_is_left(const PatientId& patient) {
    return guarded<Salvage>([&]() -> Result<Salvage> { return salvage_of(*state_, patient); });
}

Result<std::vector<StoredEvent>> Store::read(const PatientId& patient) {
    auto salvage = read_what_is_left(patient);
    if (!salvage) return salvage.faults();
    if (!salvage->damage.empty()) return std::move(salvage->damage);
    return std::move(salvage->events);
}

Result<std::vector<PatientId>> Store::patients() {
    return guarded<std::vector<PatientId>>([&]() -> Result<std::vector<PatientId>> {
        std::vector<PatientId> found;
        const Bytes clinic_events = state_->patient_key({});
        const Bytes access_log = state_->patient_key(PatientId(kAccessLog));
        Bytes key;
        sql::Use next =
            state_->db.prepared("SELECT patient FROM events WHERE patient>?1 ORDER BY patient LIMIT 1");
        while (next->bind_blob(1, key).step()) {
            key = next->bytes(0);
            next->reset();
            if (key == clinic_events || key == access_log) continue;
            found.push_back(patient_under(*state_, key));
        }
        return found;
    });
}

Result<Heads> Store::heads() {
    return guarded<Heads>([&]() -> Result<Heads> { return heads_of(state_->db); });
}

}  // namespace evenfall
