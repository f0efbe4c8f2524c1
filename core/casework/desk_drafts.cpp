// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/desk.h"

namespace evenfall {

Result<Done> Desk::put_draft(const PatientId& patient, const std::string& kind, const std::string& text) {
    return log_->put_draft(patient, kind, text);
}

Result<std::optional<std::string>> Desk::read_draft(const PatientId& patient, const std::string& kind) {
    return log_->read_draft(patient, kind);
}

Result<Done> Desk::drop_draft(const PatientId& patient, const std::string& kind) {
    return log_->drop_draft(patient, kind);
}

Result<Done> Desk::note_opened(const PatientId& patient, Day today) {
    if (patient.empty() || opened_.contains({today, patient})) return Done{};
    auto noted = log_->note_opened(patient);
    if (noted) opened_.emplace(today, patient);
    return noted;
}

}  // namespace evenfall
