// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"

namespace evenfall {

namespace {

const std::string kOther = "nine slow barges";

class People : public StoreTest {
  protected:
    Result<Store> nurse() {
        return Store::open(path, "Cleo Nurse", kOther, quick_options(1'900'000'000'000'000));
    }
    UserId with_nurse() {
        Store store = made();
        return store.grant({"Cleo Nurse", Role::nurse, "N-7"}, kOther)->grant.id;
    }
};

}  // namespace

TEST_F(People, LetsAGrantedNurseInWithTheirOwnPassphrase) {
    with_nurse();
    auto store = nurse();
    ASSERT_EQ(fault_id(store), "");
    EXPECT_EQ(store->user().grant.role, Role::nurse);
    EXPECT_EQ(store->user().grant.licence, "N-7");
    EXPECT_TRUE(store->append({note("p1", "called")}).ok());
    EXPECT_TRUE(store->check()->whole());
    EXPECT_EQ(store->read("p1")->front().void_reason, "");
}

TEST_F(People, KeepsANurseFromWhatAPrescriberAnswersFor) {
    with_nurse();
    auto store = nurse();
    for (const char* kind : {"plan-committed", "suitability-signed", "product-listed", "product-withdrawn",
                             "rule-changed", "user-granted", "user-closed", "rule-overridden"})
        EXPECT_EQ(fault_id(store->append({event_of("p1", kind, nlohmann::json::object())})),
                  "user-may-not-write")
            << kind;
    EXPECT_EQ(fault_id(store->grant({"Dan", Role::nurse, ""}, kOther)), "user-may-not-write");
    EXPECT_EQ(fault_id(store->close_user(store->users().front().grant.id)), "user-may-not-write");
}

TEST_F(People, KeepsANurseFromTakingAPlanBack) {
    EventId plan;
    {
        Store store = made();
        ASSERT_TRUE(store.grant({"Cleo Nurse", Role::nurse, ""}, kOther).ok());
        plan = store.append({event_of("p1", "plan-committed", nlohmann::json::object())})->front().event.id;
    }
    auto store = nurse();
    EXPECT_EQ(fault_id(store->append({event_of("p1", "entry-amended", {{"event", plan}, {"reason", "x"}})})),
              "user-may-not-write");
    const EventId own = store->append({note("p1", "typo")})->front().event.id;
    EXPECT_TRUE(store->append({event_of("p1", "entry-amended", {{"event", own}, {"reason", "typo"}})}).ok());
}

TEST_F(People, RefusesASecondUserOfAName) {
    Store store = made();
    EXPECT_EQ(fault_id(store.grant({"Ada Prescriber", Role::nurse, ""}, kOther)), "user-name-taken");
    EXPECT_EQ(fault_id(store.grant({"", Role::nurse, ""}, kOther)), "user-no-name");
    EXPECT_EQ(fault_id(store.grant({"Dan", Role::nurse, ""}, "1234567")), "passphrase-too-short");
    EXPECT_EQ(store.users().size(), 2U) << "the founder and the recovery key";
}

TEST_F(People, ClosesAUserWhoseEntriesStayValid) {
    const UserId id = with_nurse();
    {
        auto store = nurse();
        ASSERT_TRUE(store->append({note("p1", "before leaving")}).ok());
    }
    {
        auto store = opened();
        ASSERT_TRUE(store->close_user(id).ok());
        EXPECT_EQ(store->read("p1")->front().void_reason, "");
        ASSERT_TRUE(store->append({note("p1", "under the new key")}).ok());
        EXPECT_EQ(fault_id(store->close_user(id)), "store-unknown-user");
    }
    EXPECT_EQ(fault_id(nurse()), "store-unknown-user");
    auto store = opened();
    ASSERT_EQ(fault_id(store), "");
    EXPECT_EQ(store->read("p1")->size(), 2U);
    EXPECT_TRUE(store->check()->whole());
    EXPECT_TRUE(store->grant({"Cleo Nurse", Role::nurse, ""}, kOther).ok()) << "the name is free again";
    store = Fault{"closed", "", {}};
    auto again = nurse();
    ASSERT_EQ(fault_id(again), "");
    EXPECT_EQ(again->read("p1")->size(), 2U) << "a later user has all keys";
}

TEST_F(People, KeepsOneOpenPrescriber) {
    Store store = made();
    EXPECT_EQ(fault_id(store.close_user(store.user().grant.id)), "user-close-own");
    const UserId second = store.grant({"Ben Prescriber", Role::prescriber, ""}, kOther)->grant.id;
    EXPECT_EQ(fault_id(store.close_user("0123")), "store-unknown-user");
    EXPECT_TRUE(store.close_user(second).ok());
}

TEST_F(People, ChangesAPassphrase) {
    {
        Store store = made();
        EXPECT_EQ(fault_id(store.change_passphrase("not this one", kOther)), "store-wrong-passphrase");
        EXPECT_EQ(fault_id(store.change_passphrase(kPassphrase, "short")), "passphrase-too-short");
        ASSERT_TRUE(store.change_passphrase(kPassphrase, kOther).ok());
    }
    EXPECT_EQ(fault_id(opened()), "store-wrong-passphrase");
    EXPECT_EQ(fault_id(Store::open(path, "Ada Prescriber", kOther, quick_options())), "");
}

TEST_F(People, OpensWithThePrintedKeyToGrantAPrescriberAndNothingElse) {
    {
        Store store = made();
        ASSERT_TRUE(store.append({note("p1", "kept")}).ok());
    }
    {
        auto store = Store::open_with_recovery(path, recovery_key, quick_options(1'900'000'000'000'000));
        ASSERT_EQ(fault_id(store), "");
        EXPECT_EQ(store->read("p1")->size(), 1U);
        EXPECT_EQ(fault_id(store->append({note("p1", "x")})), "user-may-not-write");
        EXPECT_EQ(fault_id(store->grant({"Dan Nurse", Role::nurse, ""}, kOther)), "user-may-not-write");
        EXPECT_EQ(fault_id(store->change_passphrase(kOther, kOther)), "user-may-not-write");
        ASSERT_TRUE(store->grant({"Eve Prescriber", Role::prescriber, "RX-2"}, kOther).ok());
        EXPECT_TRUE(store->check()->whole());
    }
    auto store = Store::open(path, "Eve Prescriber", kOther, quick_options(1'910'000'000'000'000));
    ASSERT_EQ(fault_id(store), "");
    EXPECT_TRUE(store->append({event_of("p1", "plan-committed", nlohmann::json::object())}).ok());
    EXPECT_EQ(store->read("p1")->back().void_reason, "");
    EXPECT_TRUE(store->check()->voided.empty());
}

TEST_F(People, TellsASlipInThePrintedKeyFromAKeyOfAnotherStore) {
    { Store store = made(); }
    std::string slipped = recovery_key;
    slipped[0] = slipped[0] == 'A' ? 'B' : 'A';
    EXPECT_EQ(fault_id(Store::open_with_recovery(path, slipped, quick_options())), "recovery-key-slip");
    const std::string right = recovery_key;
    path = folder / "other.evenfall";
    { Store store = made(); }
    EXPECT_EQ(fault_id(Store::open_with_recovery(path, right, quick_options())), "store-wrong-recovery-key");
}

TEST_F(People, ProvesThePassphraseOfNowWhileTheStoreIsOpen) {
    Store store = made();
    const auto proof = store.passphrase_proof();
    EXPECT_EQ(fault_id(proof(kPassphrase)), "");
    ASSERT_TRUE(store.change_passphrase(kPassphrase, kOther).ok());
    EXPECT_EQ(fault_id(proof(kOther)), "");
    EXPECT_EQ(fault_id(proof(kPassphrase)), "store-wrong-passphrase");
    EXPECT_EQ(fault_id(Store::in_memory("Demo", {"Ada", Role::prescriber, ""}, quick_options())
                           .passphrase_proof()(kOther)),
              "store-in-memory");
}

}  // namespace evenfall
