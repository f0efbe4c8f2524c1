// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <fstream>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "fixture.h"

// A store travels: as a back-up, as a copy on another machine, and as an exchange file between two laptops.

namespace evenfall {

namespace {

const std::string kOther = "nine slow barges";

/// Carries what `from` has to `to`, by an exchange file.
MergeReport carry(Store& from, Store& to, const std::filesystem::path& stick) {
    std::filesystem::remove(stick);
    if (!from.backup(stick)) throw std::runtime_error("no exchange file");
    const auto merged = to.merge(stick);
    if (!merged) throw std::runtime_error("not merged: " + merged.faults().front().id);
    return *merged;
}

class Travel : public StoreTest {
  protected:
    std::filesystem::path at(const std::string& name) const { return folder / name; }
    Result<Store> ada(const std::string& name, std::int64_t start = 1'900'000'000'000'000) const {
        return Store::open(at(name), "Ada Prescriber", kPassphrase, quick_options(start));
    }
    Result<Store> cleo(const std::string& name, std::int64_t start = 1'900'000'500'000'000) const {
        return Store::open(at(name), "Cleo Nurse", kOther, quick_options(start));
    }
    /// Two laptops of one clinic, "a" and "b".
    void pair() {
        path = at("a");
        Store store = made();
        ASSERT_TRUE(store.grant({"Cleo Nurse", Role::nurse, ""}, kOther).ok());
        ASSERT_TRUE(store.append({note("p1", "from the start")}).ok());
        ASSERT_TRUE(store.backup(at("b")).ok());
    }
};

}  // namespace

TEST_F(Travel, BacksUpWhileItIsInUse) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "a")}).ok());
    ASSERT_EQ(fault_id(store.backup(at("copy"))), "");
    ASSERT_TRUE(store.append({note("p1", "b")}).ok()) << "and goes on";
    EXPECT_EQ(fault_id(store.backup(at("copy"))), "store-exists");
    EXPECT_FALSE(std::filesystem::exists(at("copy-wal")));
    auto copy = ada("copy");
    ASSERT_EQ(fault_id(copy), "");
    EXPECT_EQ(copy->read("p1")->size(), 1U);
    EXPECT_TRUE(copy->check()->whole());
}

TEST_F(Travel, GoesOnUnderANewLogAfterItWasRestored) {
    Store store = made();
    ASSERT_TRUE(store.backup(at("copy")).ok());
    auto copy = ada("copy");
    const LogId before = store.append({note("p1", "here")})->front().stamp.log;
    const LogId after = copy->append({note("p1", "there")})->front().stamp.log;
    EXPECT_NE(before, after);
    copy = Fault{"closed", "", {}};
    copy = ada("copy");
    EXPECT_EQ(copy->append({note("p1", "there again")})->front().stamp.log, after);
    EXPECT_TRUE(copy->check()->whole());
}

TEST_F(Travel, MergesWhatTwoLaptopsWrote) {
    pair();
    auto a = ada("a");
    auto b = cleo("b");
    ASSERT_TRUE(a->append({note("p1", "by the prescriber")}).ok());
    ASSERT_TRUE(b->append({note("p1", "by the nurse"), note("p2", "a new person")}).ok());
    const MergeReport gained = carry(*b, *a, at("stick"));
    EXPECT_EQ(gained.gained, 2);
    EXPECT_EQ(gained.patients, (std::vector<PatientId>{"p1", "p2"}));
    carry(*a, *b, at("stick"));
    EXPECT_EQ(*a->read("p1"), *b->read("p1"));
    EXPECT_EQ(a->read("p1")->size(), 3U);
    EXPECT_EQ(*a->heads(), *b->heads());
    EXPECT_EQ(carry(*a, *b, at("stick")).gained, 0) << "again changes nothing";
    EXPECT_TRUE(a->check()->whole());
    EXPECT_TRUE(b->check()->whole());
}

TEST_F(Travel, RefusesAnotherClinicsFile) {
    Store store = made();
    path = at("other");
    ASSERT_TRUE(made().backup(at("stick")).ok());
    EXPECT_EQ(fault_id(store.merge(at("stick"))), "merge-other-clinic");
    EXPECT_EQ(fault_id(store.merge(at("nothing"))), "store-no-such-file");
}

TEST_F(Travel, TakesNothingOfAFileInWhichOneRowIsForged) {
    pair();
    auto a = ada("a");
    {
        auto b = cleo("b");
        ASSERT_TRUE(b->append({note("p1", "x")}).ok());
        ASSERT_TRUE(b->append({note("p1", "y")}).ok());
        ASSERT_TRUE(b->backup(at("stick")).ok());
    }
    meddle_with(at("stick"), "UPDATE events SET signature=zeroblob(64) WHERE number=2 AND sequence=2");
    const Heads before = *a->heads();
    EXPECT_EQ(fault_id(a->merge(at("stick"))), "merge-row-refused");
    EXPECT_EQ(*a->heads(), before);
    EXPECT_TRUE(a->append({note("p1", "goes on")}).ok());
    EXPECT_TRUE(a->check()->whole());
}

TEST_F(Travel, KeepsAndShowsAFork) {
    pair();
    { ASSERT_TRUE(cleo("b")->append({note("p1", "start of the log")}).ok()); }
    // A raw copy that takes the place of the file's own: both now write one log.
    const std::string raw = at("raw").string();
    std::filesystem::copy_file(at("b"), raw);
    { ASSERT_TRUE(cleo("b")->append({note("p1", "one story")}).ok()); }
    { ASSERT_TRUE(ada("a")->merge(at("b")).ok()); }
    {
        std::ofstream to(at("b"), std::ios::binary | std::ios::trunc);
        to << std::ifstream(raw, std::ios::binary).rdbuf();
    }
    { ASSERT_TRUE(cleo("b")->append({note("p1", "another story")}).ok()); }
    auto a = ada("a");
    const auto merged = a->merge(at("b"));
    ASSERT_EQ(fault_id(merged), "");
    EXPECT_EQ(merged->forks.size(), 1U);
    EXPECT_EQ(merged->forks.begin()->second, 2);
    ASSERT_EQ(a->forked()->size(), 1U);
    EXPECT_EQ(a->forked()->front().event.body->at("text"), "another story");
    EXPECT_EQ(a->read("p1")->back().event.body->at("text"), "one story") << "ours stays";
    EXPECT_EQ(a->check()->forks, 1);
    EXPECT_TRUE(a->merge(at("b")).ok());
    EXPECT_EQ(a->forked()->size(), 1U) << "once";
}

TEST_F(Travel, BringsUsersAndNewKeysAlong) {
    pair();
    auto a = ada("a");
    auto b = cleo("b");
    ASSERT_TRUE(a->grant({"Dan Nurse", Role::nurse, ""}, kPassphrase).ok());
    carry(*a, *b, at("stick"));
    ASSERT_TRUE(a->close_user(b->user().grant.id).ok());
    ASSERT_TRUE(a->append({note("p1", "under the new key")}).ok());
    ASSERT_TRUE(b->append({note("p1", "after the closing")}).ok());
    carry(*b, *a, at("stick"));
    EXPECT_EQ(a->read("p1")->back().void_reason.empty() ? a->read("p1")->at(1).void_reason
                                                        : a->read("p1")->back().void_reason,
              "void-author-closed");
    EXPECT_EQ(a->check()->voided.size(), 1U);
    b = Fault{"closed", "", {}};
    auto dan = Store::open(at("b"), "Dan Nurse", kPassphrase, quick_options(1'920'000'000'000'000));
    ASSERT_EQ(fault_id(dan), "");
    carry(*a, *dan, at("stick"));
    EXPECT_EQ(*dan->read("p1"), *a->read("p1"));
    EXPECT_TRUE(dan->check()->whole());
    dan = Fault{"closed", "", {}};
    EXPECT_EQ(fault_id(cleo("b")), "store-unknown-user");
}

namespace {

/// Random writing and random exchanges between three laptops, then two rounds in which all meet.
struct Course {
    std::mt19937 random;
    std::vector<Store*> stores;
    std::filesystem::path stick;

    void move(int number) {
        Store& from = *stores[random() % stores.size()];
        Store& to = *stores[random() % stores.size()];
        if (&from == &to)
            ASSERT_TRUE(to.append({note("p" + std::to_string(number % 3), std::to_string(number))}).ok());
        else
            carry(from, to, stick);
    }
    void meet() {
        for (int round = 0; round < 2; ++round)
            for (std::size_t i = 0; i < stores.size(); ++i)
                carry(*stores[i], *stores[(i + 1) % stores.size()], stick);
    }
};

}  // namespace

TEST_F(Travel, ConvergesWhateverTheOrderOfExchanges) {
    for (unsigned seed = 1; seed <= 8; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        for (const char* each : {"a", "b", "c"}) std::filesystem::remove(at(each));
        pair();
        auto a = ada("a");
        ASSERT_TRUE(a->backup(at("c")).ok());
        auto b = cleo("b");
        auto c = ada("c", 1'900'000'900'000'000);
        Course course{std::mt19937(seed), {&*a, &*b, &*c}, at("stick")};
        for (int i = 0; i < 12; ++i) course.move(i);
        course.meet();
        for (const char* patient : {"p0", "p1", "p2", ""}) {
            EXPECT_EQ(*a->read(patient), *b->read(patient));
            EXPECT_EQ(*a->read(patient), *c->read(patient));
        }
        EXPECT_EQ(*a->heads(), *b->heads());
        EXPECT_EQ(*a->heads(), *c->heads());
        EXPECT_TRUE(a->check()->whole() && b->check()->whole() && c->check()->whole());
    }
}

RC_GTEST_FIXTURE_PROP(Travel, ReadsWhatWasAppendedInAnyOrderOfPatients, ()) {
    Store store = Store::in_memory("Demo", {"Ada Prescriber", Role::prescriber, ""}, quick_options());
    std::map<PatientId, std::vector<StoredEvent>> expected;
    const auto batches = *rc::gen::container<std::vector<std::vector<int>>>(
        rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 5)));
    for (const auto& batch : batches) {
        std::vector<Event> events;
        for (const int patient : batch)
            events.push_back(note("p" + std::to_string(patient), std::to_string(events.size())));
        const auto stored = store.append(events);
        RC_ASSERT(stored.ok());
        for (const StoredEvent& each : *stored) expected[each.event.patient].push_back(each);
    }
    RC_ASSERT(store.patients()->size() == expected.size());
    for (const auto& [patient, events] : expected) RC_ASSERT(*store.read(patient) == events);
    RC_ASSERT(store.check()->whole());
}

}  // namespace evenfall
