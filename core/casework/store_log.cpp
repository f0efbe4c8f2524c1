// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/store_log.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "store/crypto.h"

namespace evenfall {

Result<std::vector<PatientId>> StoreLog::patients() {
    auto patients = store_.patients();
    if (patients) std::erase(*patients, PatientId());
    return patients;
}

EventId StoreLog::new_id() {
    return crypto::new_id();
}

namespace {

/// Drafts are found by one name. An id holds no line break, so no two pairs make one name.
std::string draft_name(const PatientId& patient, const std::string& kind) {
    return patient + "\n" + kind;
}

}  // namespace

Result<Done> StoreLog::put_draft(const PatientId& patient, const std::string& kind, const std::string& text) {
    return store_.put_draft(draft_name(patient, kind), text);
}

Result<std::optional<std::string>> StoreLog::read_draft(const PatientId& patient, const std::string& kind) {
    return store_.draft(draft_name(patient, kind));
}

Result<Done> StoreLog::drop_draft(const PatientId& patient, const std::string& kind) {
    return store_.delete_draft(draft_name(patient, kind));
}

std::optional<std::string> StoreLog::snapshot(const std::string& name) {
    auto kept = store_.snapshot(name);
    return kept ? std::move(*kept) : std::nullopt;
}

namespace {

std::string print_state(const Heads& heads) {
    nlohmann::json state = nlohmann::json::object();
    for (const auto& [log, head] : heads) state[log] = {head.sequence, head.hash};
    return state.dump();
}

Heads read_state(const std::string& state) {
    Heads heads;
    try {
        const nlohmann::json parsed = nlohmann::json::parse(state);  // outlives what walks over it
        for (const auto& [log, head] : parsed.items())
            heads[log] = {head.at(0).get<std::int64_t>(), head.at(1).get<std::string>()};
    } catch (const nlohmann::json::exception&) {
        return {};
    }
    return heads;
}

}  // namespace

Result<LogChanges> StoreLog::changed_since(const std::string& state, const std::vector<PatientId>& among) {
    auto changed = store_.changed_since(read_state(state), among);
    if (!changed) return changed.faults();
    return LogChanges{print_state(changed->heads), changed->follows, changed->clinic, changed->others,
                      std::move(changed->patients)};
}

Worker worker_of(const Store& store) {
    const UserGrant& grant = store.user().grant;
    return {grant.id, grant.name, grant.role, grant.licence};
}

}  // namespace evenfall
