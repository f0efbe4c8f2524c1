// SPDX-License-Identifier: GPL-3.0-or-later
#include "fixture.h"

namespace evenfall {

namespace {

using AccessTest = StoreTest;

}  // namespace

TEST_F(AccessTest, KeepsWhoOpenedWhomInOrderAndOutOfTheRecord) {
    {
        Store store = made();
        ASSERT_TRUE(store.append({note("p1", "first"), note("p2", "second")}).ok());
        ASSERT_TRUE(store.note_opened("p1").ok());
        ASSERT_TRUE(store.note_opened("p2").ok());
    }
    auto store = opened();
    const auto lines = store->accesses();
    ASSERT_EQ(fault_id(lines), "");
    ASSERT_EQ(lines->size(), 2U);
    EXPECT_EQ(lines->front().patient, "p1");
    EXPECT_EQ(lines->back().patient, "p2");
    EXPECT_EQ(lines->front().stamp.author, store->user().grant.id);
    EXPECT_LT(lines->front().stamp.clock, lines->back().stamp.clock);
    EXPECT_EQ(store->patients()->size(), 2U) << "the access log is no patient";
    EXPECT_EQ(store->read("p1")->size(), 1U) << "a record does not grow by being read";
    EXPECT_TRUE(store->check()->whole());
}

TEST_F(AccessTest, NotesTheHolderOfThePrintedKeyToo) {
    {
        Store store = made();
        ASSERT_TRUE(store.append({note("p1", "first")}).ok());
    }
    auto store = Store::open_with_recovery(path, recovery_key, quick_options(1'900'000'000'000'000));
    ASSERT_EQ(fault_id(store), "");
    ASSERT_EQ(fault_id(store->note_opened("p1")), "");
    ASSERT_EQ(store->accesses()->size(), 1U);
    EXPECT_EQ(store->accesses()->front().stamp.author, store->user().grant.id);
    EXPECT_TRUE(store->check()->voided.empty());
}

TEST_F(AccessTest, ALineThatWasTakenOutIsNoticed) {
    {
        Store store = made();
        ASSERT_TRUE(store.append({note("p1", "first")}).ok());
        ASSERT_TRUE(store.note_opened("p1").ok());
        ASSERT_TRUE(store.note_opened("p1").ok());
    }
    meddle("DELETE FROM events WHERE sequence=4");
    auto store = opened();
    EXPECT_EQ(fault_id(store->accesses()), "row-missing-before");
    EXPECT_FALSE(store->check()->whole());
}

TEST_F(AccessTest, NothingOfItStandsInTheFileInClear) {
    {
        Store store = made();
        ASSERT_TRUE(store.note_opened("river-17").ok());
    }
    for (const auto& each : std::filesystem::directory_iterator(folder))
        EXPECT_EQ(bytes_of(each.path()).find("river-17"), std::string::npos) << each.path();
}

}  // namespace evenfall
