// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"

namespace evenfall {

namespace {

/// Three free tries, then 30 s, 60 s, … up to 100 s; a clock that stands until it is moved.
class TriesTest : public StoreTest {
  protected:
    TriesTest() {
        { Store store = made(); }
    }
    StoreOptions slow_options() {
        StoreOptions options = quick_options();
        options.delays = {3, 30, 100};
        options.now = [this] { return now; };
        return options;
    }
    Faults tried(const std::string& passphrase) {
        auto store = Store::open(path, "Ada Prescriber", passphrase, slow_options());
        return store ? Faults{} : store.faults();
    }
    static std::string seconds_of(const Faults& faults) {
        for (const Fault& each : faults)
            if (each.id == "store-wait") return each.args.at("seconds");
        return "";
    }
    std::int64_t now = 1'900'000'000'000'000;
};

}  // namespace

TEST_F(TriesTest, TheDelayDoublesUpToItsMost) {
    const TryDelays delays{3, 30, 100};
    EXPECT_EQ(delays.seconds_after(2), 0);
    EXPECT_EQ(delays.seconds_after(3), 30);
    EXPECT_EQ(delays.seconds_after(4), 60);
    EXPECT_EQ(delays.seconds_after(5), 100);
    EXPECT_EQ(delays.seconds_after(1'000'000), 100);
    EXPECT_EQ(TryDelays{}.seconds_after(100), 0) << "without a rule nothing is slowed";
}

TEST_F(TriesTest, WrongPassphrasesSlowTheNextTryAlsoAfterARestart) {
    EXPECT_EQ(seconds_of(tried("wrong one here")), "");
    EXPECT_EQ(seconds_of(tried("wrong one here")), "");
    const Faults third = tried("wrong one here");
    ASSERT_EQ(third.size(), 2U);
    EXPECT_EQ(third.front().id, "store-wrong-passphrase");
    EXPECT_EQ(seconds_of(third), "30");
    const Faults waiting = tried(kPassphrase);
    ASSERT_EQ(waiting.size(), 1U) << "the right one is not even looked at while it must wait";
    EXPECT_EQ(seconds_of(waiting), "30");
    now += 29'000'000;
    EXPECT_EQ(seconds_of(tried(kPassphrase)), "1");
    now += 1'000'000;
    EXPECT_EQ(seconds_of(tried("wrong one here")), "60") << "the next one waits twice as long";
    now += 60'000'000;
    EXPECT_TRUE(tried(kPassphrase).empty());
    EXPECT_EQ(seconds_of(tried("wrong one here")), "") << "the right one begins the count anew";
}

TEST_F(TriesTest, AClockSetBackNeitherShortensNorLengthensTheWait) {
    for (int i = 0; i < 3; ++i) tried("wrong one here");
    now -= 365LL * 86'400 * 1'000'000;
    EXPECT_EQ(seconds_of(tried(kPassphrase)), "30");
}

TEST_F(TriesTest, AnotherUserAndAnUnknownNameAreNotSlowed) {
    {
        Store store = *opened();
        ASSERT_TRUE(store.grant({"Cleo Nurse", Role::nurse, ""}, "nine slow barges").ok());
    }
    for (int i = 0; i < 3; ++i) tried("wrong one here");
    EXPECT_EQ(fault_id(Store::open(path, "Cleo Nurse", "nine slow barges", slow_options())), "");
    for (int i = 0; i < 9; ++i)
        EXPECT_EQ(fault_id(Store::open(path, "Nobody", kPassphrase, slow_options())), "store-unknown-user");
}

TEST_F(TriesTest, TheCoverOfALockedWindowIsSlowedToo) {
    auto store = Store::open(path, "Ada Prescriber", kPassphrase, slow_options());
    ASSERT_TRUE(store.ok());
    const auto proof = store->passphrase_proof();
    for (int i = 0; i < 3; ++i) EXPECT_EQ(fault_id(proof("wrong one here")), "store-wrong-passphrase");
    EXPECT_EQ(fault_id(proof(kPassphrase)), "store-wait");
    EXPECT_EQ(fault_id(store->change_passphrase(kPassphrase, "nine slow barges")), "store-wait");
    now += 30'000'000;
    EXPECT_EQ(fault_id(proof(kPassphrase)), "");
}

TEST_F(TriesTest, ASideFileThatIsNoneCountsAsNone) {
    for (const std::string& text :
         std::vector<std::string>{std::string(), std::string("{"), std::string(100'000, '['),
                                  std::string("[1,2]"), std::string(R"({"x":["a",1]})")}) {
        std::ofstream(path.string() + ".tries", std::ios::binary) << text;
        EXPECT_TRUE(tried(kPassphrase).empty()) << text.substr(0, 20);
    }
}

TEST_F(TriesTest, TheSideFileIsPrivateAndNamesNobody) {
    tried("wrong one here");
    const std::string bytes = bytes_of(path.string() + ".tries");
    EXPECT_FALSE(bytes.empty());
    EXPECT_EQ(bytes.find("Ada"), std::string::npos);
    EXPECT_EQ(std::filesystem::status(path.string() + ".tries").permissions(),
              std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
}

}  // namespace evenfall
