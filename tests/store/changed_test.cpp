// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/fixture.h"

namespace evenfall {
namespace {

class ChangedTest : public StoreTest {
  protected:
    void SetUp() override {
        auto made =
            Store::create(path, "Hill Street", {"Ada", Role::prescriber, ""}, kPassphrase, quick_options());
        ASSERT_TRUE(made);
        store.emplace(std::move(made->store));
        ASSERT_TRUE(store->append({note("p1", "one"), note("p2", "one"), note("p3", "one")}));
    }
    std::optional<Store> store;
    const std::vector<PatientId> all{"p1", "p2", "p3"};
};

}  // namespace

TEST_F(ChangedTest, NamesThoseWithRowsBeyondAKnownState) {
    const Heads before = *store->heads();
    EXPECT_TRUE(store->changed_since(before, all)->patients.empty());
    ASSERT_TRUE(store->append({note("p2", "two"), note("p2", "three")}));
    ASSERT_TRUE(store->note_opened("p3"));
    const auto changed = store->changed_since(before, all);
    ASSERT_TRUE(changed);
    EXPECT_TRUE(changed->follows);
    EXPECT_EQ(changed->patients, std::vector<PatientId>{"p2"}) << "who was opened has not changed";
    EXPECT_FALSE(changed->clinic);
    EXPECT_FALSE(changed->others);
    EXPECT_EQ(changed->heads, *store->heads());
}

TEST_F(ChangedTest, TellsNewPeopleAndTheClinicApart) {
    const Heads before = *store->heads();
    ASSERT_TRUE(store->append({note("p4", "new")}));
    EXPECT_TRUE(store->changed_since(before, all)->others);
    ASSERT_TRUE(store->grant({"Ben", Role::nurse, ""}, kPassphrase));
    EXPECT_TRUE(store->changed_since(before, all)->clinic) << "who may write changes what counts";
}

TEST_F(ChangedTest, NothingFollowsFromAStateThatIsNotThisStores) {
    Heads other = *store->heads();
    other.begin()->second.hash.front() ^= 1;
    EXPECT_FALSE(store->changed_since(other, all)->follows);
    other = *store->heads();
    other.begin()->second.sequence += 5;
    EXPECT_FALSE(store->changed_since(other, all)->follows) << "a back-up that lacks the newest rows";
    EXPECT_FALSE(store->changed_since({}, all)->follows);
}

TEST_F(ChangedTest, ManySnapshotsAreSealedAtOnce) {
    ASSERT_TRUE(store->put_snapshots({{"a", "one"}, {"b", "two"}}));
    EXPECT_EQ(*store->snapshot("a"), std::optional<Bytes>("one"));
    EXPECT_EQ(*store->snapshot("b"), std::optional<Bytes>("two"));
    EXPECT_EQ(*store->snapshot("c"), std::nullopt);
}

}  // namespace evenfall
