// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "store/state.h"

namespace evenfall {

namespace {

bool is_shaped(const Row& row) {
    return row.patient.size() == 16 && row.log.size() == 16 && row.event.size() == 16 &&
           row.author.size() == 16 && row.previous.size() == 32 && row.hash.size() == 32 &&
           row.sequence > 0 && row.number > 0 && (row.signature.empty() || row.signature.size() == 64);
}

Bytes author_key(const Row& row, const Grants& grants, const Bytes& founding_key) {
    if (const User* author = grants.find(to_hex(row.author)))
        return from_hex(author->grant.public_key).value_or(Bytes());
    // Only the founder writes before any grant; who has the founding key is known by its hash.
    return crypto::hash(founding_key, 16) == row.author ? founding_key : Bytes();
}

/// A user's id is the hash of their key: a grant that says otherwise would give one user's entries to
/// another.
bool names_its_key(const Event& event) {
    if (event.kind != kUserGranted) return true;
    const auto key = event.body->is_object() ? event.body->find("public_key") : event.body->end();
    if (key == event.body->end() || !key->is_string()) return false;
    const auto bytes = from_hex(key->get_ref<const std::string&>());
    return bytes && event.body->value("id", nlohmann::json()) == to_hex(crypto::hash(*bytes, 16));
}

}  // namespace

Fault row_fault(const char* id, const Row& row, Args args) {
    args.emplace("log", to_hex(row.log).substr(0, 8));
    args.emplace("row", std::to_string(row.sequence));
    return {id, to_hex(row.log) + " " + std::to_string(row.sequence), std::move(args)};
}

std::optional<Fault> prove_into(StoredEvent& event, const Row& row, const Bytes& clinic,
                                const std::map<std::int64_t, EpochKeys>& epochs, ProofSpace& space) {
    if (!is_shaped(row)) return row_fault("row-misshapen", row);
    associated_data_into(space.data, row, clinic);
    if (!crypto::hash_of_both_is(space.data, row.sealed, row.hash)) return row_fault("row-changed", row);
    const auto epoch = epochs.find(row.epoch);
    if (epoch == epochs.end()) return row_fault("row-without-key", row);
    if (!crypto::open_into(space.text, row.sealed, space.data, epoch->second.rows))
        return row_fault("row-seal-broken", row);
    auto read = read_event(space.text);
    if (!read) return row_fault("row-unreadable", row);
    event.stamp = stamp_of(row);
    event.event = std::move(*read);
    event.event.id = to_hex(row.event);
    return std::nullopt;
}

Proved prove(const Row& row, const Bytes& clinic, const std::map<std::int64_t, EpochKeys>& epochs) {
    ProofSpace space;
    StoredEvent event;
    if (auto damage = prove_into(event, row, clinic, epochs, space)) return {{}, std::move(damage)};
    return {std::move(event), {}};
}

bool signature_holds(const Row& row, const Grants& grants, const Bytes& founding_key) {
    return crypto::verify(signed_bytes(row.hash), row.signature, author_key(row, grants, founding_key));
}

Grants read_grants(StoreState& state) {
    Grants grants(to_hex(state.founding_key));
    const Bytes clinic_events = state.patient_key({});
    sql::Use rows = state.db.prepared("SELECT " + std::string(kRowColumns) +
                                      " FROM events WHERE patient=?1 ORDER BY clock, log, sequence");
    rows->bind_blob(1, clinic_events);
    while (rows->step()) {
        const Row row = read_row(*rows);
        const Proved proved = prove(row, state.clinic, state.epochs);
        if (!proved.event) continue;
        const Event& event = proved.event->event;
        const bool concerns_users = event.kind == kUserGranted || event.kind == kUserClosed;
        if (concerns_users && names_its_key(event) && signature_holds(row, grants, state.founding_key))
            grants.apply(*proved.event);
    }
    return grants;
}

}  // namespace evenfall
