// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/caseload_file.h"
#include "sample_data/seeded_log.h"
#include "sample_data/story.h"

namespace evenfall::sample {

/// Writes stories through a desk, so that its checks hold for every entry on the day on which it is dated.
class Scribe {
  public:
    Scribe(const Formulary& formulary, const Rules& rules);

    /// Throws std::runtime_error naming what the desk refuses.
    void write(const Clinic& clinic);
    void write(const Story& story);
    CaseloadFile caseload() const { return {kTold, ledger_->written}; }

  private:
    void set_clock(LocalTime time) { ledger_->now = Instant(time.time_since_epoch()); }
    void name_plan(const PatientId& patient, Change& change);
    [[noreturn]] void refuse(const std::string& name, const Faults& faults) const;

    std::shared_ptr<Ledger> ledger_ = std::make_shared<Ledger>();
    Desk desk_;
};

}  // namespace evenfall::sample
