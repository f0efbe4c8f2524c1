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

Worker worker_of(const Store& store) {
    const UserGrant& grant = store.user().grant;
    return {grant.id, grant.name, grant.role, grant.licence};
}

}  // namespace evenfall
