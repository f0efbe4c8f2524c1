// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <memory>

#include "casework/desk.h"
#include "sample_data/draws.h"

namespace evenfall::sample {

/// What a seeded log shares with whoever holds the desk: the clock that it stamps by, and all that was
/// written, in order.
struct Ledger {
    Instant now{};
    std::vector<Event> written;
};

/// A log in memory whose ids come from a seed, so that the same caseload has the same ids for ever.
class SeededLog final : public EventLog {
  public:
    SeededLog(std::uint64_t seed, std::shared_ptr<Ledger> ledger)
        : draws_(seed), ledger_(std::move(ledger)) {}

    Result<std::vector<StoredEvent>> append(std::vector<Event> events) override;
    Result<std::vector<PatientId>> patients() override;
    Result<std::vector<StoredEvent>> read(const PatientId& patient) override { return events_[patient]; }
    EventId new_id() override { return draws_.id(); }

  private:
    Draws draws_;
    std::shared_ptr<Ledger> ledger_;
    std::map<PatientId, std::vector<StoredEvent>> events_;
    std::int64_t clock_ = 0;
    std::int64_t sequence_ = 0;
};

}  // namespace evenfall::sample
