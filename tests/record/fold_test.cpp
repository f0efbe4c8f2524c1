// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "record/patient_record.h"

namespace evenfall {
namespace {

/// Events of one patient in the order of `clock`.
class Log {
  public:
    EventId write(const Change& change) {
        EventId id(32, '0');
        const std::string tail = std::to_string(++count_);
        id.replace(id.size() - tail.size(), tail.size(), tail);
        events_.push_back(
            {{"log", count_, count_ * 1000, "user", Instant()}, write_change(id, "patient", change), {}});
        return id;
    }
    PatientRecord fold() const { return fold_patient("patient", events_); }
    void judge_void(const EventId& id) {
        for (StoredEvent& event : events_)
            if (event.event.id == id) event.void_reason = "void-beyond-role";
    }
    std::vector<StoredEvent>& events() { return events_; }

  private:
    std::vector<StoredEvent> events_;
    std::int64_t count_ = 0;
};

Person named(std::string name) {
    Person person;
    person.reference = "p-1";
    person.name = std::move(name);
    return person;
}

TEST(Fold, TheLatestValueCountsAndTheHistoryKeepsAll) {
    Log log;
    log.write(named("Ann Otter"));
    log.write(named("Anna Otter"));
    const auto record = log.fold();
    EXPECT_EQ(record.person->value.name, "Anna Otter");
    EXPECT_EQ(record.lines.size(), 2u);
}

TEST(Fold, AnAmendedEntryIsInTheHistoryOnly) {
    Log log;
    log.write(named("Anna Otter"));
    const EventId wrong = log.write(named("Hanna Otter"));
    log.write(EntryAmended{wrong, "wrong patient"});
    const auto record = log.fold();
    EXPECT_EQ(record.person->value.name, "Anna Otter");
    EXPECT_EQ(record.lines[1].standing, Standing::amended);
    EXPECT_EQ(record.lines[2].reason, "wrong patient");
}

TEST(Fold, AnEventWithoutRightIsShownAndDoesNotCount) {
    Log log;
    const EventId id = log.write(Suitability{SuitabilityOutcome::outpatient_taper, {}, ""});
    log.judge_void(id);
    const auto record = log.fold();
    EXPECT_FALSE(record.suitability);
    EXPECT_EQ(record.lines[0].standing, Standing::without_right);
}

TEST(Fold, AnAmendmentWithoutRightTakesNothingBack) {
    Log log;
    const EventId person = log.write(named("Anna Otter"));
    const EventId amendment = log.write(EntryAmended{person, "no"});
    log.judge_void(amendment);
    EXPECT_TRUE(log.fold().person);
}

TEST(Fold, ApplyingOneByOneIsFoldingAll) {
    Log log;
    log.write(named("Anna Otter"));
    log.write(Goals{{"sleep before one"}, 6, ""});
    log.write(IntakeNoted{
        {{LocalTime(day_at(2026, 12, 1)), "lorazepam", Dose::milligrams(1), TakenWhy::unsaid, ""}}, {}});
    PatientRecord record;
    record.id = "patient";
    for (const auto& event : log.events()) record = apply(record, event).value();
    EXPECT_EQ(record, log.fold());
}

TEST(Fold, ALateArrivalIsFoldedAnew) {
    Log log;
    log.write(named("Anna Otter"));
    log.write(named("Anna Otter"));
    PatientRecord record = fold_patient("patient", std::span(log.events()).subspan(1));
    EXPECT_FALSE(apply(record, log.events()[0]));
}

TEST(Fold, AnEventOfANewerVersionIsKeptAndNamed) {
    Log log;
    log.write(named("Anna Otter"));
    log.events()[0].event.version = 99;
    EXPECT_EQ(log.fold().lines[0].standing, Standing::unreadable);
    EXPECT_EQ(read_change(log.events()[0].event).faults().front().id, "event-newer-version");
}

TEST(Changes, AnUnreadableBodyIsAFaultNotACrash) {
    Event event{"id", "patient", "regimen-recorded", 1,
                Body(nlohmann::json::parse(R"({"regimen":{"from":"yesterday"}})"))};
    EXPECT_EQ(read_change(event).faults().front().id, "event-unreadable");
    *event.body = nlohmann::json::array({1, 2});
    EXPECT_EQ(read_change(event).faults().front().id, "event-unreadable");
}

}  // namespace
}  // namespace evenfall
