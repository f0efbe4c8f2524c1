// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/store_log.h"

#include <algorithm>

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

Worker worker_of(const Store& store) {
    const UserGrant& grant = store.user().grant;
    return {grant.id, grant.name, grant.role, grant.licence};
}

}  // namespace evenfall
