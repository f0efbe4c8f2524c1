// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/safekeeping.h"

#include <fstream>

#include <gtest/gtest.h>

#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::hours;

class SafekeepingTest : public testing::Test {
  protected:
    SafekeepingTest() : store(Store::in_memory("Hill Street", {"Ada", Role::prescriber, ""}, options())) {
        std::string made = (std::filesystem::temp_directory_path() / "evenfall-safe-XXXXXX").string();
        if (mkdtemp(made.data()) == nullptr) throw std::runtime_error("no folder");
        folder = made;
    }
    ~SafekeepingTest() override {
        std::error_code ignored;
        std::filesystem::remove_all(folder, ignored);
    }
    static StoreOptions options() {
        StoreOptions made;
        made.kdf = crypto::Kdf::least();
        return made;
    }
    void touch(const std::string& name) const { std::ofstream(folder / name) << "x"; }
    std::vector<std::string> ids(const Safekeeping& kept) const {
        std::vector<std::string> found;
        for (const Flag& flag : safekeeping_flags(kept, *rules, now)) found.push_back(flag.rule);
        return found;
    }

    Store store;
    std::filesystem::path folder;
    Result<Rules> rules = Rules::load(resources_folder() / "rules.json");
    Instant now{std::chrono::seconds(1'800'000'000)};
};

using Ids = std::vector<std::string>;

}  // namespace

TEST_F(SafekeepingTest, IsKeptSealedInTheStore) {
    EXPECT_EQ(*read_safekeeping(store), Safekeeping{});
    const Safekeeping kept{"/media/stick", "a.evenfall-backup", now, now - hours(5), true,
                           now - hours(9), "store-disk-full"};
    ASSERT_TRUE(write_safekeeping(store, kept));
    EXPECT_EQ(*read_safekeeping(store), kept);
}

TEST_F(SafekeepingTest, RemindsOfABackUpThatIsMissingOrOld) {
    Safekeeping kept;
    EXPECT_EQ(ids(kept), Ids{"backup-none"});
    kept.last_backup = now - hours(24 * 7);
    EXPECT_EQ(ids(kept), Ids{});
    kept.last_backup = now - hours(24 * 8);
    EXPECT_EQ(ids(kept), Ids{"backup-old"});
    kept.last_backup = now;
    kept.last_proof = now - hours(24 * 31);
    EXPECT_EQ(ids(kept), Ids{"proof-old"});
}

TEST_F(SafekeepingTest, AFailedBackUpComesFirst) {
    Safekeeping kept;
    kept.last_failure = now - hours(1);
    kept.last_backup = now - hours(24 * 9);
    EXPECT_EQ(ids(kept), (Ids{"backup-failed", "backup-old"}));
    const Flag flag = safekeeping_flags(kept, *rules, now).front();
    EXPECT_EQ(rules->sentence(flag).find('{'), std::string::npos) << rules->sentence(flag);
}

TEST_F(SafekeepingTest, ABackUpIsDueByTheRuleOnceAFolderIsChosen) {
    Safekeeping kept;
    EXPECT_FALSE(backup_due(kept, *rules, now)) << "nobody has chosen where to";
    kept.folder = "/media/stick";
    EXPECT_TRUE(backup_due(kept, *rules, now));
    kept.last_backup = now - hours(23);
    EXPECT_FALSE(backup_due(kept, *rules, now));
    kept.last_backup = now - hours(24);
    EXPECT_TRUE(backup_due(kept, *rules, now));
    kept.last_backup = now + hours(24 * 365);
    EXPECT_TRUE(backup_due(kept, *rules, now)) << "a clock that was wrong must not end all back-ups";
}

TEST_F(SafekeepingTest, RotationRemovesTheOldestOfThisClinicOnly) {
    std::vector<std::string> names;
    for (int i = 0; i < 5; ++i) names.push_back(backup_name(store, now + hours(i)));
    for (const std::string& each : names) touch(each);
    touch("evenfall-00000000-20200101-000000.evenfall-backup");
    touch("holiday.jpg");
    touch(names[0] + ".old");
    std::filesystem::create_symlink(folder / "holiday.jpg", folder / backup_name(store, now - hours(1)));
    const auto removed = rotate_backups(store, folder, 3);
    ASSERT_TRUE(removed);
    ASSERT_EQ(removed->size(), 2U);
    EXPECT_EQ((*removed)[0].filename(), names[0]);
    EXPECT_EQ((*removed)[1].filename(), names[1]);
    EXPECT_EQ(newest_backup(store, folder)->filename(), names[4]);
    EXPECT_TRUE(std::filesystem::exists(folder / "holiday.jpg"));
    EXPECT_TRUE(std::filesystem::exists(folder / "evenfall-00000000-20200101-000000.evenfall-backup"));
    EXPECT_TRUE(std::filesystem::exists(folder / (names[0] + ".old")));
    EXPECT_FALSE(rotate_backups(store, folder / "nowhere", 3));
}

TEST_F(SafekeepingTest, StoresAreOpenedWithTheDelaysOfTheRule) {
    const TryDelays delays = store_options(*rules).delays;
    EXPECT_EQ(delays, (TryDelays{5, 30, 3600}));
}

}  // namespace evenfall
