// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/access.h"

#include "store/state.h"

namespace evenfall {

Result<Done> Store::note_opened(const PatientId& patient) {
    auto noted = append({record_opened(patient)});
    if (!noted) return noted.faults();
    return Done{};
}

Result<std::vector<Access>> Store::accesses() {
    const auto events = read(PatientId(kAccessLog));
    if (!events) return events.faults();
    return accesses_of(*events);
}

}  // namespace evenfall
