// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "record/patient_record.h"
#include "record/users.h"

namespace evenfall {
namespace {

const Day kDay = day_at(2026, 11, 2);
const LocalTime kTime = at_clock(kDay, {9 * 60});

/// One of each kind that is written between visits.
std::vector<Change> one_of_each() {
    const OnHand left{{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}}, 6, {}};
    return {ContactAttempted{kTime, "555 0100", "rang out"},
            WhereaboutsNoted{"c1", kTime, "at home", "her sister", "555 0101"},
            DangerTold{"c1", kTime, "Dr A.", "555 0102", "sees her at noon"},
            ReasonSnoozed{"step-due-soon", kDay + std::chrono::days(3), "away until Thursday"},
            StandingChanged{CareStanding::moved_away, kDay, "to the coast"},
            CareTeamSet{"Dr A.", "Nurse B."},
            DrugTestNoted{"", kDay, kDay, {}, "immunoassay", "", TestAgrees::not_known, ""},
            MonitoringChecked{kDay, "nothing new", kDay + std::chrono::days(90)},
            LifeEvent{LifeKind::hospital_stay, kDay, kDay + std::chrono::days(4), "knee"},
            TabletsReturned{kDay, {left}, "the pharmacy"}};
}

TEST(Contacts, EachKindComesBackAsItWasWritten) {
    for (const Change& change : one_of_each()) {
        const auto read = read_change(write_change("id", "patient", change));
        ASSERT_TRUE(read) << kind_of(change);
        EXPECT_EQ(*read, change) << kind_of(change);
    }
}

TEST(Contacts, ANurseMayWriteEachOfThem) {
    for (const Change& change : one_of_each()) EXPECT_TRUE(may(Role::nurse, kind_of(change)));
}

TEST(Contacts, NoneOfThemIsTheClinics) {
    for (const Change& change : one_of_each()) EXPECT_FALSE(is_clinic_change(change)) << kind_of(change);
    EXPECT_TRUE(is_clinic_change(Clinic{}));
    EXPECT_FALSE(is_clinic_change(RuleOverridden{}));
}

TEST(Contacts, TheRecordKeepsThemWhereTheyBelong) {
    std::vector<StoredEvent> events;
    std::int64_t count = 0;
    for (const Change& change : one_of_each()) {
        ++count;
        events.push_back({{"log", count, count, "user", Instant()},
                          write_change("e" + std::to_string(count), "p", change),
                          {}});
    }
    const PatientRecord record = fold_patient("p", events);
    EXPECT_EQ(record.attempts.size(), 1u);
    EXPECT_EQ(record.whereabouts.front().value.call_back, "555 0101");
    EXPECT_EQ(record.told.front().value.answer, "sees her at noon");
    EXPECT_EQ(record.snoozed.size(), 1u);
    EXPECT_EQ(record.standing->value.standing, CareStanding::moved_away);
    EXPECT_EQ(record.team->value.nurse, "Nurse B.");
    EXPECT_EQ(record.drug_tests.size(), 1u);
    EXPECT_EQ(record.monitoring.size(), 1u);
    EXPECT_EQ(record.life_events.front().value.what, LifeKind::hospital_stay);
    EXPECT_EQ(record.returned.front().value.returned.front().quarters, 6);
}

TEST(Contacts, APersonWithoutAPhoneStaysReadable) {
    const Event old{"id", "p", "person-recorded", 1,
                    Body(nlohmann::json::parse(R"({"reference":"p-1","name":"Anna Otter"})"))};
    const auto read = read_change(old);
    ASSERT_TRUE(read);
    EXPECT_EQ(std::get<Person>(*read).phone, "");
}

}  // namespace
}  // namespace evenfall
