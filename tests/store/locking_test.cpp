// SPDX-License-Identifier: GPL-3.0-or-later
#include "fixture.h"

// A window that locks itself has the keys forgotten: nothing of the store can be read or written until a
// passphrase brought them back.

namespace evenfall {
namespace {

using Locking = StoreTest;

TEST_F(Locking, WithoutItsKeysNothingIsReadNorWritten) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "before")}).ok());
    ASSERT_TRUE(store.put_draft("call", "half a call").ok());
    ASSERT_TRUE(store.put_snapshot("line", "derived").ok());
    const auto heads = store.heads();
    store.forget_keys();
    EXPECT_TRUE(store.locked());
    const char* locked = "store-locked";
    EXPECT_EQ(fault_id(store.append({note("p1", "x")})), locked);
    EXPECT_EQ(fault_id(store.read("p1")), locked);
    EXPECT_EQ(fault_id(store.read_what_is_left("p1")), locked);
    EXPECT_EQ(fault_id(store.patients()), locked);
    EXPECT_EQ(fault_id(store.note_opened("p1")), locked);
    EXPECT_EQ(fault_id(store.accesses()), locked);
    EXPECT_EQ(fault_id(store.put_draft("call", "x")), locked);
    EXPECT_EQ(fault_id(store.draft("call")), locked);
    EXPECT_EQ(fault_id(store.delete_draft("call")), locked);
    EXPECT_EQ(fault_id(store.put_snapshot("line", "x")), locked);
    EXPECT_EQ(fault_id(store.put_snapshots({{"line", "x"}})), locked);
    EXPECT_EQ(fault_id(store.snapshot("line")), locked);
    EXPECT_EQ(fault_id(store.changed_since(*heads, {"p1"})), locked);
    EXPECT_EQ(fault_id(store.grant({"Cleo Nurse", Role::nurse, ""}, "nine slow barges")), locked);
    EXPECT_EQ(fault_id(store.check()), locked);
    EXPECT_EQ(fault_id(store.forked()), locked);
    EXPECT_EQ(fault_id(store.merge(path)), locked);
    EXPECT_EQ(fault_id(store.preview_restore(path)), locked);
}

TEST_F(Locking, ThePassphraseBringsThemBackAndTheRestIsAsItWas) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "before")}).ok());
    ASSERT_TRUE(store.put_draft("call", "half a call").ok());
    const auto unlock = store.unlocking();
    store.forget_keys();
    EXPECT_EQ(fault_id(unlock("wrong one here")), "store-wrong-passphrase");
    EXPECT_TRUE(store.locked());
    const auto unlocked = unlock(kPassphrase);
    ASSERT_EQ(fault_id(unlocked), "");
    EXPECT_TRUE(store.locked()) << "the keys come back on the store's thread";
    ASSERT_EQ(fault_id((*unlocked)()), "");
    EXPECT_FALSE(store.locked());
    EXPECT_EQ(store.draft("call").value(), "half a call");
    ASSERT_TRUE(store.append({note("p1", "after")}).ok());
    EXPECT_EQ(store.read("p1")->size(), 2u);
    EXPECT_TRUE(store.check()->whole());
}

TEST_F(Locking, KnowsTheDataKeyThatAClosingBegan) {
    Store store = made();
    const auto nurse = store.grant({"Cleo Nurse", Role::nurse, ""}, "nine slow barges");
    ASSERT_TRUE(nurse.ok());
    ASSERT_TRUE(store.close_user(nurse->grant.id).ok());
    ASSERT_TRUE(store.append({note("p1", "under the new key")}).ok());
    const auto unlock = store.unlocking();
    store.forget_keys();
    ASSERT_EQ(fault_id((*unlock(kPassphrase))()), "");
    EXPECT_EQ(store.read("p1")->front().event.body->at("text"), "under the new key");
    EXPECT_TRUE(store.check()->whole());
}

}  // namespace
}  // namespace evenfall
