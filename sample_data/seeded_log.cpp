// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/seeded_log.h"

#include <algorithm>

namespace evenfall::sample {

Result<std::vector<StoredEvent>> SeededLog::append(std::vector<Event> events) {
    std::vector<StoredEvent> stored;
    for (Event& event : events) {
        const std::chrono::microseconds at = ledger_->now.time_since_epoch();
        clock_ = std::max<std::int64_t>(clock_ + 1, at.count());
        ledger_->written.push_back(event);
        stored.push_back({{"sample", ++sequence_, clock_, "sample", ledger_->now}, std::move(event), {}});
        events_[stored.back().event.patient].push_back(stored.back());
    }
    return stored;
}

Result<std::vector<PatientId>> SeededLog::patients() {
    std::vector<PatientId> ids;
    for (const auto& [id, events] : events_)
        if (!id.empty()) ids.push_back(id);
    return ids;
}

}  // namespace evenfall::sample
