// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/logs.h"

namespace evenfall {

namespace {

/// Checks that rows of one patient follow each other: no number is missing within a log, and rows that are
/// neighbours in their log are linked.
class Links {
  public:
    std::optional<Fault> follow(const Row& row) {
        Last& last = lasts_[row.log];
        std::optional<Fault> fault;
        if (row.number != last.number + 1)
            fault = row_fault("row-missing-before", row,
                              {{"missing", std::to_string(row.number - last.number - 1)}});
        else if (last.sequence > 0 && row.sequence == last.sequence + 1 && row.previous != last.hash)
            fault = row_fault("row-link-broken", row);
        last = {row.number, row.sequence, row.hash};
        return fault;
    }

  private:
    struct Last {
        std::int64_t number = 0;
        std::int64_t sequence = 0;
        Bytes hash;
    };
    std::map<Bytes, Last> lasts_;
};

void take_row(const Row& row, const PatientId& patient, const StoreState& state, Links& links,
              Salvage& salvage) {
    if (auto fault = links.follow(row)) salvage.damage.push_back(*fault);
    Proved proved = prove(row, state.clinic, state.epochs);
    if (proved.event && proved.event->event.patient != patient)
        proved.damage = row_fault("row-misplaced", row);
    if (proved.damage)
        salvage.damage.push_back(*proved.damage);
    else
        salvage.events.push_back(std::move(*proved.event));
}

Salvage salvage_of(StoreState& state, const PatientId& patient) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    const Bytes key = state.patient_key(patient);
    Salvage salvage;
    Links links;
    sql::Use rows = state.db.prepared(select);
    rows->bind_blob(1, key);
    while (rows->step()) take_row(read_row(*rows), patient, state, links, salvage);
    state.grants.mark_void(salvage.events);
    return salvage;
}

/// The patient of the first row under a key that can be read.
std::optional<PatientId> patient_under(StoreState& state, const Bytes& key) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    sql::Use rows = state.db.prepared(select);
    rows->bind_blob(1, key);
    while (rows->step())
        if (Proved proved = prove(read_row(*rows), state.clinic, state.epochs); proved.event)
            return std::move(proved.event->event.patient);
    return std::nullopt;
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
            if (auto patient = patient_under(*state_, key)) found.push_back(std::move(*patient));
        }
        return found;
    });
}

Result<Heads> Store::heads() {
    return guarded<Heads>([&]() -> Result<Heads> { return heads_of(state_->db); });
}

}  // namespace evenfall
