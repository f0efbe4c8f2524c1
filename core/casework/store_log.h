// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "casework/desk.h"
#include "store/store.h"

namespace evenfall {

/// The sealed store as a desk's log.
class StoreLog final : public EventLog {
  public:
    explicit StoreLog(Store store) : store_(std::move(store)) {}

    Result<std::vector<StoredEvent>> append(std::vector<Event> events) override {
        return store_.append(std::move(events));
    }
    Result<std::vector<PatientId>> patients() override;
    Result<std::vector<StoredEvent>> read(const PatientId& patient) override { return store_.read(patient); }
    EventId new_id() override;
    Result<Done> put_draft(const PatientId& patient, const std::string& kind,
                           const std::string& text) override;
    Result<std::optional<std::string>> read_draft(const PatientId& patient, const std::string& kind) override;
    Result<Done> drop_draft(const PatientId& patient, const std::string& kind) override;
    bool keeps_snapshots() const override { return true; }
    std::optional<std::string> snapshot(const std::string& name) override;
    Result<Done> put_snapshots(const std::map<std::string, std::string>& by_name) override {
        return store_.put_snapshots(by_name);
    }
    Result<LogChanges> changed_since(const std::string& state, const std::vector<PatientId>& among) override;
    Result<Done> note_opened(const PatientId& patient) override { return store_.note_opened(patient); }

    Store& store() { return store_; }

  private:
    Store store_;
};

/// Who has the store open, as the desk knows them.
Worker worker_of(const Store& store);

}  // namespace evenfall
