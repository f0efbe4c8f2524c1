// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/access.h"

#include <nlohmann/json.hpp>

namespace evenfall {

Event record_opened(const PatientId& patient) {
    return {
        {}, PatientId(kAccessLog), std::string(kRecordOpened), 1, Body(nlohmann::json{{"patient", patient}})};
}

std::vector<Access> accesses_of(const std::vector<StoredEvent>& events) {
    std::vector<Access> lines;
    for (const StoredEvent& each : events) {
        if (each.event.kind != kRecordOpened || !each.void_reason.empty() || !each.event.body->is_object())
            continue;
        const auto patient = each.event.body->find("patient");
        if (patient == each.event.body->end() || !patient->is_string()) continue;
        lines.push_back({each.stamp, patient->get<PatientId>()});
    }
    return lines;
}

}  // namespace evenfall
