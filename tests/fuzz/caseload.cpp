// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "exchange/caseload_file.h"
#include "fuzz/support.h"
#include "record/patient_record.h"

using namespace evenfall;

/// What is read can be folded, and reads the same when it is written out again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = read_caseload(fuzz::text_of(data, size), "caseload.json");
    if (!read) return 0;
    std::map<PatientId, std::vector<StoredEvent>> patients;
    std::int64_t clock = 0;
    for (const Event& each : read->events) {
        ++clock;
        patients[each.patient].push_back({{"log", clock, clock, "author", Instant()}, each, {}});
    }
    for (const auto& [id, events] : patients)
        if (!id.empty()) static_cast<void>(fold_patient(id, events));
    static_cast<void>(fold_clinic(patients[{}]));
    const auto again = read_caseload(write_caseload(*read), "again.json");
    fuzz::promise(again.ok() && *again == *read);
    return 0;
}
