// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/store.h"

#include <algorithm>

#include <sys/stat.h>

#include "fixture.h"

namespace evenfall {

TEST_F(StoreTest, FindsEverythingAgainAfterItWasClosed) {
    std::vector<StoredEvent> written;
    {
        Store store = made();
        written = *store.append({note("p1", "first"), note("p1", "second")});
        written.push_back(store.append({note("p1", "third")})->front());
    }
    auto store = opened();
    ASSERT_EQ(fault_id(store), "");
    EXPECT_EQ(*store->read("p1"), written);
    EXPECT_EQ(*store->patients(), std::vector<PatientId>{"p1"});
    EXPECT_EQ(store->user().grant.name, "Ada Prescriber");
    EXPECT_EQ(store->clinic(), "Hill Street");
}

TEST_F(StoreTest, StampsInOrderWithTheAuthorAndTheClock) {
    Store store = made();
    const auto written = store.append({note("p1", "a"), note("p2", "b")});
    ASSERT_TRUE(written.ok());
    const Stamp& first = written->front().stamp;
    const Stamp& second = written->back().stamp;
    EXPECT_EQ(first.sequence, 3) << "the founder's and the recovery key's grants come first";
    EXPECT_EQ(second.sequence, 4);
    EXPECT_LT(first.clock, second.clock);
    EXPECT_EQ(first.author, store.user().grant.id);
    EXPECT_EQ(first.log, store.log());
    EXPECT_EQ(first.at.time_since_epoch().count(), 1'800'000'002);
}

TEST_F(StoreTest, KeepsPatientsApartAndReadsAnUnknownOneAsEmpty) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "a"), note("p2", "b"), note("p1", "c")}).ok());
    EXPECT_EQ(store.read("p1")->size(), 2U);
    EXPECT_EQ(store.read("p2")->size(), 1U);
    EXPECT_TRUE(store.read("nobody")->empty());
}

TEST_F(StoreTest, RefusesAWrongPassphraseAndAnUnknownUser) {
    { Store store = made(); }
    EXPECT_EQ(fault_id(Store::open(path, "Ada Prescriber", "twelve quiet heron", quick_options())),
              "store-wrong-passphrase");
    EXPECT_EQ(fault_id(Store::open(path, "Nobody", kPassphrase, quick_options())), "store-unknown-user");
    EXPECT_EQ(fault_id(Store::open(path, "", kPassphrase, quick_options())), "store-unknown-user");
}

TEST_F(StoreTest, IsPrivateToItsOwner) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "a")}).ok());
    for (const auto& each : std::filesystem::directory_iterator(folder)) {
        struct stat info {};
        ASSERT_EQ(stat(each.path().c_str(), &info), 0);
        EXPECT_EQ(info.st_mode & 0777, 0600U) << each.path();
    }
}

TEST_F(StoreTest, WorksInMemoryWithoutAPassphrase) {
    Store store = Store::in_memory("Demo", {"Ada Prescriber", Role::prescriber, ""}, quick_options());
    ASSERT_TRUE(store.append({note("p1", "a")}).ok());
    EXPECT_EQ(store.read("p1")->size(), 1U);
    EXPECT_EQ(store.read_clinic()->size(), 1U) << "the founder's grant";
}

}  // namespace evenfall
