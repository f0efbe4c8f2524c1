// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/conflicts.h"

#include <map>

namespace evenfall {
namespace {

bool is_conflict(const Flag& flag) {
    return flag.rule == "plans-conflict" || flag.rule == "call-twice";
}

}  // namespace

std::vector<Conflict> conflicts_of(const std::vector<CaseloadLine>& lines) {
    std::vector<Conflict> found;
    std::map<std::string, std::vector<PatientId>> bearers;
    for (const CaseloadLine& line : lines) {
        for (const Reason& each : line.reasons)
            if (is_conflict(each.flag)) found.push_back({line.patient, line.reference, each.flag});
        for (const Snoozed& each : line.snoozed)
            if (is_conflict(each.reason.flag))
                found.push_back({line.patient, line.reference, each.reason.flag});
        if (!line.reference.empty()) bearers[line.reference].push_back(line.patient);
    }
    for (const auto& [reference, patients] : bearers)
        if (patients.size() > 1) found.push_back({patients.back(), reference, {"reference-twice", {}, {}}});
    return found;
}

}  // namespace evenfall
