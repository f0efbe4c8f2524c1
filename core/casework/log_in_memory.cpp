// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <random>

#include "casework/desk.h"

namespace evenfall {
namespace {

constexpr const char* kHex = "0123456789abcdef";

/// Keeps events as they come. Its ids are random but not secret: nothing is sealed with them.
class LogInMemory final : public EventLog {
  public:
    LogInMemory(UserId author, std::function<Instant()> now)
        : author_(std::move(author)), now_(std::move(now)) {}

    Result<std::vector<StoredEvent>> append(std::vector<Event> events) override {
        std::vector<StoredEvent> stored;
        for (Event& event : events) stored.push_back(keep(std::move(event)));
        return stored;
    }

    /// Keeps an event under the next stamp.
    const StoredEvent& keep(Event event) {
        const Instant at = now_();
        const auto micros =
            std::chrono::duration_cast<std::chrono::microseconds>(at.time_since_epoch()).count();
        clock_ = std::max(clock_ + 1, micros);
        if (event.id.empty()) event.id = new_id();
        std::vector<StoredEvent>& kept = events_[event.patient];
        kept.push_back({{"memory", ++sequence_, clock_, author_, at}, std::move(event), {}});
        return kept.back();
    }

    Result<std::vector<PatientId>> patients() override {
        std::vector<PatientId> ids;
        for (const auto& [id, events] : events_)
            if (!id.empty()) ids.push_back(id);
        return ids;
    }

    Result<std::vector<StoredEvent>> read(const PatientId& patient) override { return events_[patient]; }

    Result<PatientRecord> folded(const PatientId& patient) override {
        return fold_patient(patient, events_[patient]);
    }

    EventId new_id() override {
        EventId id(32, '0');
        for (char& digit : id) digit = kHex[random_() % 16];
        return id;
    }

    Result<Done> put_draft(const PatientId& patient, const std::string& kind,
                           const std::string& text) override {
        drafts_[{patient, kind}] = text;
        return Done{};
    }

    Result<std::optional<std::string>> read_draft(const PatientId& patient,
                                                  const std::string& kind) override {
        const auto found = drafts_.find({patient, kind});
        return found == drafts_.end() ? std::optional<std::string>() : found->second;
    }

    Result<Done> drop_draft(const PatientId& patient, const std::string& kind) override {
        drafts_.erase({patient, kind});
        return Done{};
    }

  private:
    UserId author_;
    std::function<Instant()> now_;
    std::map<PatientId, std::vector<StoredEvent>> events_;
    std::map<std::pair<PatientId, std::string>, std::string> drafts_;
    std::int64_t sequence_ = 0;
    std::int64_t clock_ = 0;
    std::mt19937_64 random_{std::random_device{}()};
};

}  // namespace

std::unique_ptr<EventLog> log_in_memory(UserId author, std::function<Instant()> now,
                                        std::vector<Event> events) {
    auto log = std::make_unique<LogInMemory>(std::move(author), std::move(now));
    for (Event& event : events) log->keep(std::move(event));
    return log;
}

}  // namespace evenfall
