// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"

namespace evenfall {

namespace {

/// Rows 3 to 6: p1, p2, p1, p2, each written by itself.
class Unreadable : public StoreTest {
  protected:
    Unreadable() {
        Store store = made();
        for (const char* text : {"one", "two"})
            for (const char* patient : {"p1", "p2"}) EXPECT_TRUE(store.append({note(patient, text)}).ok());
        EXPECT_TRUE(store.note_opened("p1").ok());
    }
};

}  // namespace

TEST_F(Unreadable, SomebodyNoneOfWhoseRowsCanBeReadIsNotPassedOver) {
    meddle("UPDATE events SET sealed=x'00' WHERE sequence IN (3, 5)");
    Store store = *opened();
    const auto patients = *store.patients();
    ASSERT_EQ(patients.size(), 2U) << "neither the clinic's own rows nor the access log are a person";
    const auto nameless = std::ranges::find_if(patients, [](const PatientId& each) { return each != "p2"; });
    ASSERT_NE(nameless, patients.end());
    EXPECT_NE(*nameless, "p1") << "who it is cannot be known";
    EXPECT_FALSE(store.read(*nameless));
    const auto salvage = store.read_what_is_left(*nameless);
    ASSERT_TRUE(salvage);
    EXPECT_TRUE(salvage->events.empty());
    EXPECT_EQ(salvage->damage.size(), 2U) << "each damaged row is told";
    EXPECT_EQ(store.changed_since(*store.heads(), patients)->patients.size(), 0U);
}

TEST_F(Unreadable, SomebodyOfWhomOneRowCanBeReadKeepsTheirName) {
    meddle("UPDATE events SET sealed=x'00' WHERE sequence=3");
    auto patients = *opened()->patients();
    std::ranges::sort(patients);
    EXPECT_EQ(patients, (std::vector<PatientId>{"p1", "p2"}));
}

/// A row whose own key was damaged lies under a key of some other length: somebody, and unreadable.
TEST_F(Unreadable, ARowUnderADamagedKeyIsNobodysEmptyRecord) {
    meddle("UPDATE events SET patient=x'0102' WHERE sequence=3");
    Store store = *opened();
    const auto patients = *store.patients();
    ASSERT_EQ(patients.size(), 3U);
    for (const PatientId& each : patients) {
        const bool named = each == "p1" || each == "p2";
        EXPECT_TRUE(named || !store.read(each)) << each;
    }
}

TEST_F(Unreadable, NothingIsWrittenUnderTheNameThatStandsForThem) {
    meddle("UPDATE events SET sealed=x'00' WHERE sequence IN (3, 5)");
    Store store = *opened();
    for (const PatientId& each : *store.patients())
        EXPECT_EQ(fault_id(store.append({note(each, "three")})), each == "p2" ? "" : "event-bad-id");
}

}  // namespace evenfall
