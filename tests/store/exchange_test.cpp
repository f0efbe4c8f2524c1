// SPDX-License-Identifier: GPL-3.0-or-later
#include <fstream>

#include <gtest/gtest.h>

#include "fixture.h"
#include "store/exchange_file.h"

// The exchange file by which two laptops of a clinic meet, and the second laptop's store that is made from
// one.

namespace evenfall {

namespace {

const std::string kOther = "nine slow barges";

class Exchange : public StoreTest {
  protected:
    std::filesystem::path at(const std::string& name) const { return folder / name; }
    /// A store with a nurse and an entry, and an exchange file of it.
    Store paired() {
        Store store = made();
        if (!store.grant({"Cleo Nurse", Role::nurse, ""}, kOther) ||
            !store.append({note("p1", "from the start")}) || !write_exchange(store, at("stick"), false))
            throw std::runtime_error("not paired");
        return store;
    }
    Result<Store> joined(const std::string& name = "b", const std::string& passphrase = kOther) {
        return join_clinic(at(name), at("stick"), "Cleo Nurse", passphrase,
                           quick_options(1'900'000'500'000'000));
    }
    std::size_t files() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
    }
};

}  // namespace

TEST_F(Exchange, ASecondLaptopJoinsOnceAndBothConverge) {
    Store a = paired();
    auto b = joined();
    ASSERT_EQ(fault_id(b), "");
    EXPECT_EQ(b->clinic_id(), a.clinic_id());
    EXPECT_EQ(*b->read("p1"), *a.read("p1"));
    ASSERT_TRUE(a.append({note("p1", "by the prescriber")}).ok());
    const auto written = b->append({note("p1", "by the nurse"), note("p2", "a new person")});
    ASSERT_TRUE(written.ok());
    EXPECT_FALSE(a.heads()->contains(written->front().stamp.log)) << "a log of its own";
    ASSERT_TRUE(write_exchange(a, at("to-b"), false).ok());
    ASSERT_TRUE(write_exchange(*b, at("to-a"), false).ok());
    for (int again = 0; again < 2; ++again) {
        EXPECT_EQ(b->merge(at("to-b"))->gained, again == 0 ? 1 : 0);
        EXPECT_EQ(a.merge(at("to-a"))->gained, again == 0 ? 2 : 0);
    }
    for (const char* patient : {"p1", "p2", ""}) EXPECT_EQ(*a.read(patient), *b->read(patient));
    EXPECT_EQ(*a.heads(), *b->heads());
    EXPECT_TRUE(a.check()->whole() && b->check()->whole());
}

TEST_F(Exchange, LeavesOutWhatIsThisLaptopsAlone) {
    Store store = made();
    ASSERT_TRUE(store.put_draft("check-in p1", std::string(90'000, 'x')).ok());
    ASSERT_TRUE(store.put_snapshot("p1", std::string(90'000, 'y')).ok());
    ASSERT_TRUE(store.append({note("p1", "kept")}).ok());
    ASSERT_TRUE(write_exchange(store, at("stick"), false).ok());
    EXPECT_LT(std::filesystem::file_size(at("stick")), 90'000U);
    auto other = join_clinic(at("b"), at("stick"), "Ada Prescriber", kPassphrase,
                             quick_options(1'900'000'000'000'000));
    ASSERT_EQ(fault_id(other), "");
    EXPECT_FALSE(other->draft("check-in p1")->has_value());
    EXPECT_TRUE(store.draft("check-in p1")->has_value()) << "and here it stays";
    EXPECT_EQ(other->read("p1")->size(), 1U);
    EXPECT_EQ(std::filesystem::status(at("stick")).permissions() & std::filesystem::perms::others_all,
              std::filesystem::perms::none);
}

TEST_F(Exchange, NeverReplacesAFileUnaskedAndNeverLosesTheOldOneBeforeTheNewIsProved) {
    Store store = paired();
    EXPECT_EQ(fault_id(write_exchange(store, at("stick"), false)), "store-exists");
    std::ofstream(at("stick.new")) << "what a stick that was pulled out left";
    ASSERT_TRUE(store.append({note("p1", "newer")}).ok());
    ASSERT_EQ(fault_id(write_exchange(store, at("stick"), true)), "");
    EXPECT_FALSE(std::filesystem::exists(at("stick.new")));
    EXPECT_EQ(joined()->read("p1")->size(), 2U);
    EXPECT_EQ(fault_id(write_exchange(store, at("no-folder") / "stick", true)), "store-no-such-folder");
}

TEST_F(Exchange, ReplacesNoFileThatIsNoneOfOurs) {
    Store store = paired();
    std::ofstream(at("letter")) << "somebody's letter";
    EXPECT_EQ(fault_id(write_exchange(store, at("letter"), true)), "store-not-a-store");
    EXPECT_EQ(bytes_of(at("letter")), "somebody's letter");
    EXPECT_EQ(fault_id(write_exchange(store, at("stick"), true)), "") << "its own kind is replaced";
}

TEST_F(Exchange, AJoiningThatFailsLeavesNothing) {
    { Store store = paired(); }
    const std::size_t before = files();
    EXPECT_EQ(fault_id(joined("b", "eight quick otters")), "store-wrong-passphrase");
    EXPECT_FALSE(std::filesystem::exists(at("b")));
    EXPECT_EQ(fault_id(joined("no-folder/b")), "store-no-such-folder");
    std::ofstream(at("taken")) << "somebody's letter";
    EXPECT_EQ(fault_id(joined("taken")), "store-exists");
    EXPECT_EQ(std::filesystem::file_size(at("taken")), 17U);
    std::filesystem::remove(at("taken"));
    meddle_with(at("stick"), "UPDATE events SET sealed=zeroblob(80) WHERE sequence=1");
    EXPECT_EQ(fault_id(joined()), "backup-differs");
    std::ofstream(at("stick"), std::ios::trunc) << "no store at all";
    EXPECT_EQ(fault_id(joined()), "store-not-a-store");
    std::filesystem::remove(at("stick"));
    EXPECT_EQ(fault_id(joined()), "store-no-such-file");
    for (const char* side : {"b.lock", "b.tries"}) std::filesystem::remove(at(side));
    EXPECT_EQ(files() + 1, before) << "the stick is gone, and nothing came";
}

TEST_F(Exchange, WhoWasClosedOverThereTakesNothingInAndIsToldSo) {
    Store a = paired();
    auto b = joined();
    ASSERT_TRUE(a.grant({"Dan Nurse", Role::nurse, ""}, kPassphrase).ok());
    ASSERT_TRUE(a.close_user(b->user().grant.id).ok());
    ASSERT_TRUE(write_exchange(a, at("to-b"), false).ok());
    const Heads before = *b->heads();
    EXPECT_EQ(fault_id(b->merge(at("to-b"))), "user-closed");
    EXPECT_EQ(*b->heads(), before);
    EXPECT_TRUE(b->check()->whole());
}

}  // namespace evenfall
