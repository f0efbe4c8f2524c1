// SPDX-License-Identifier: GPL-3.0-or-later
#include <csignal>
#include <fstream>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include "fixture.h"

namespace evenfall {

namespace {

/// Acts as an ordinary account while it lives: permissions do not bind root. Nothing to do for anyone else.
class OrdinaryAccount {
  public:
    OrdinaryAccount() : was_root_(geteuid() == 0) {
        if (was_root_ && seteuid(65534) != 0) throw std::runtime_error("cannot act as another account");
    }
    ~OrdinaryAccount() {
        if (was_root_ && seteuid(0) != 0) std::abort();
    }
    OrdinaryAccount(const OrdinaryAccount&) = delete;
    OrdinaryAccount& operator=(const OrdinaryAccount&) = delete;

  private:
    bool was_root_;
};

std::string integrity(const std::filesystem::path& path) {
    sqlite3* db = nullptr;
    sqlite3_open(path.c_str(), &db);
    sqlite3_stmt* check = nullptr;
    sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &check, nullptr);
    std::string says = "nothing";
    if (sqlite3_step(check) == SQLITE_ROW)
        says = reinterpret_cast<const char*>(sqlite3_column_text(check, 0));
    sqlite3_finalize(check);
    sqlite3_close(db);
    return says;
}

class StoreFaults : public StoreTest {
  protected:
    void own_by_ordinary_account() const {
        if (geteuid() != 0) return;
        for (const auto& each : {folder, path, std::filesystem::path(path.string() + ".lock")})
            if (std::filesystem::exists(each) && chown(each.c_str(), 65534, 65534) != 0)
                throw std::runtime_error("chown");
    }
};

}  // namespace

TEST_F(StoreFaults, SaysThatThereIsNoFile) {
    EXPECT_EQ(fault_id(opened()), "store-no-such-file");
    EXPECT_FALSE(std::filesystem::exists(path.string() + ".lock")) << "nothing is left by a mistyped name";
}

TEST_F(StoreFaults, NeverMakesAStoreOverAFile) {
    std::ofstream(path) << "somebody's letter";
    EXPECT_EQ(fault_id(Store::create(path, "c", {"A", Role::prescriber, ""}, kPassphrase, quick_options())),
              "store-exists");
    EXPECT_EQ(std::filesystem::file_size(path), 17U);
}

TEST_F(StoreFaults, SaysThatTheFolderIsNotThere) {
    EXPECT_EQ(fault_id(Store::create(folder / "no" / "x", "c", {"A", Role::prescriber, ""}, kPassphrase,
                                     quick_options())),
              "store-no-such-folder");
}

TEST_F(StoreFaults, AsksForAFirstNameAndAPassphraseOfSomeLength) {
    const auto made = Store::create(path, "c", {"  ", Role::prescriber, ""}, "short", quick_options());
    ASSERT_FALSE(made.ok());
    EXPECT_EQ(made.faults().size(), 2U) << "both at once";
    EXPECT_EQ(made.faults()[0].id, "user-no-name");
    EXPECT_EQ(made.faults()[1].id, "passphrase-too-short");
    EXPECT_FALSE(std::filesystem::exists(path));
}

TEST_F(StoreFaults, TellsWhatIsNoStore) {
    std::ofstream(path) << std::string(8192, 'x');
    EXPECT_EQ(fault_id(opened()), "store-not-a-store");
    std::filesystem::remove(path);
    std::ofstream{path};
    EXPECT_EQ(fault_id(opened()), "store-not-a-store") << "an empty file";
    std::filesystem::remove(path);
    meddle("CREATE TABLE notes(text)");
    EXPECT_EQ(fault_id(opened()), "store-not-a-store") << "another program's database";
    EXPECT_EQ(fault_id(Store::open(folder, "A", kPassphrase, quick_options())), "store-not-a-store")
        << "a folder";
}

TEST_F(StoreFaults, RefusesANewerFormatAndLeavesItAlone) {
    { Store store = made(); }
    meddle("PRAGMA user_version=2");
    const auto store = opened();
    ASSERT_EQ(fault_id(store), "store-newer-version");
    EXPECT_EQ(store.faults().front().args.at("found"), "2");
    EXPECT_EQ(store.faults().front().args.at("known"), "1");
}

TEST_F(StoreFaults, RefusesTriggersAndViewsOfAnAttacker) {
    { Store store = made(); }
    const std::string whole = path.string() + ".whole";
    std::filesystem::copy_file(path, whole);
    for (const char* sql :
         {"CREATE TRIGGER t AFTER INSERT ON events BEGIN DELETE FROM drafts; END",
          "CREATE VIEW v AS SELECT 1", "CREATE TABLE extra(x)", "CREATE INDEX i ON events(at)",
          "DROP INDEX events_by_log; CREATE INDEX events_by_log ON events(log, sequence)"}) {
        std::filesystem::copy_file(whole, path, std::filesystem::copy_options::overwrite_existing);
        meddle(sql);
        EXPECT_EQ(fault_id(opened()), "store-strange-object") << sql;
    }
    std::filesystem::copy_file(whole, path, std::filesystem::copy_options::overwrite_existing);
    meddle("DROP TABLE snapshots");
    EXPECT_EQ(fault_id(opened()), "store-damaged");
}

TEST_F(StoreFaults, TellsASecondCopyWhoHoldsTheStore) {
    Store store = made();
    const auto second = opened();
    ASSERT_EQ(fault_id(second), "store-in-use");
    EXPECT_EQ(second.faults().front().args.at("program"), std::to_string(getpid()));
    EXPECT_FALSE(second.faults().front().args.at("host").empty());
    EXPECT_FALSE(second.faults().front().args.at("user").empty());
    EXPECT_TRUE(store.append({note("p1", "the first goes on")}).ok());
}

TEST_F(StoreFaults, OpensAgainOnceTheHolderIsGone) {
    { Store store = made(); }
    EXPECT_EQ(fault_id(opened()), "");
    EXPECT_EQ(fault_id(opened()), "");
}

TEST_F(StoreFaults, SaysThatAFolderOrFileIsReadOnly) {
    { Store store = made(); }
    own_by_ordinary_account();
    const OrdinaryAccount ordinary;
    std::filesystem::permissions(path, std::filesystem::perms::owner_read);
    EXPECT_EQ(fault_id(opened()), "store-read-only");
    std::filesystem::permissions(path,
                                 std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    std::filesystem::permissions(folder,
                                 std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
    EXPECT_EQ(fault_id(opened()), "store-read-only");
    EXPECT_EQ(fault_id(Store::create(folder / "new", "c", {"A", Role::prescriber, ""}, kPassphrase,
                                     quick_options())),
              "store-no-permission");
    std::filesystem::permissions(folder, std::filesystem::perms::owner_all);
    EXPECT_EQ(fault_id(opened()), "") << "and nothing was lost";
}

TEST_F(StoreFaults, SaysThatAFileMayNotBeRead) {
    { Store store = made(); }
    own_by_ordinary_account();
    const OrdinaryAccount ordinary;
    std::filesystem::permissions(path, std::filesystem::perms::none);
    EXPECT_EQ(fault_id(opened()), "store-no-permission");
}

TEST_F(StoreFaults, LosesNothingOnAFullDisk) {
    StoreOptions options = quick_options();
    options.max_pages = 40;
    std::size_t kept = 0;
    {
        Store store = made(options);
        auto appended = store.append({note("p1", std::string(3000, 'x'))});
        for (; appended.ok(); appended = store.append({note("p1", std::string(3000, 'x'))})) ++kept;
        EXPECT_EQ(fault_id(appended), "store-disk-full");
        ASSERT_GT(kept, 3U);
        EXPECT_EQ(store.read("p1")->size(), kept) << "the copy that met the full disk reads on";
        EXPECT_TRUE(store.check()->whole());
    }
    auto store = opened();
    EXPECT_EQ(store->read("p1")->size(), kept);
    EXPECT_TRUE(store->append({note("p1", "with room again")}).ok());
    EXPECT_TRUE(store->check()->whole());
    store = Fault{"closed", "", {}};
    EXPECT_EQ(integrity(path), "ok");
}

TEST_F(StoreFaults, LosesNothingWhenTheSystemRefusesToWriteOn) {
    Store store = made();
    ASSERT_TRUE(store.append({note("p1", "before")}).ok());
    struct rlimit before {};
    ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit small { 4096, before.rlim_max };
    ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
    const auto refused = store.append({note("p1", std::string(100'000, 'x'))});
    setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
    EXPECT_TRUE(fault_id(refused) == "store-disk-full" || fault_id(refused) == "store-disk-failed")
        << fault_id(refused);
    EXPECT_EQ(store.read("p1")->size(), 1U);
    EXPECT_TRUE(store.append({note("p1", "after")}).ok());
    EXPECT_TRUE(store.check()->whole());
}

TEST_F(StoreFaults, WritesNothingOfABatchThatHoldsOneBadEvent) {
    Store store = made();
    EXPECT_EQ(fault_id(store.append({note("p1", "good"), event_of("p1", "", {})})), "event-no-kind");
    EXPECT_EQ(fault_id(store.append({note("p1", "good"), note("p1", "\xff\xfe")})), "event-not-text");
    nlohmann::json deep = 1;
    for (int i = 0; i < 100; ++i) deep = nlohmann::json::array({deep});
    EXPECT_EQ(fault_id(store.append({note("p1", "good"), event_of("p1", "note-added", deep)})),
              "event-too-deep");
    EXPECT_EQ(fault_id(store.append({note("p1", std::string(5 << 20, 'x'))})), "event-too-long");
    Event named = note("p1", "x");
    named.id = "DROP TABLE events";
    EXPECT_EQ(fault_id(store.append({named})), "event-bad-id");
    EXPECT_TRUE(store.read("p1")->empty());
    EXPECT_TRUE(store.append({}).ok()) << "nothing to write is no fault";
}

TEST_F(StoreFaults, KeepsStrangeTextExactly) {
    Store store = made();
    const std::string strange = "Robert'); DROP TABLE events;-- <b>\\\"{}[] \u202e \u0001 ../../etc";
    ASSERT_TRUE(store.append({note(strange, strange)}).ok());
    EXPECT_EQ(store.read(strange)->front().event.body->at("text"), strange);
    EXPECT_EQ(store.patients()->front(), strange);
}

TEST_F(StoreFaults, TellsThatTheClockWentBack) {
    std::int64_t now = 1'800'000'000'000'000;
    StoreOptions options = quick_options();
    options.now = [&now] { return now; };
    Store store = made(options);
    const auto before = store.append({note("p1", "a")});
    now -= 4LL * 60 * 1'000'000;
    EXPECT_FALSE(store.clock_notice().has_value()) << "four minutes are a clock being set right";
    now -= 6LL * 60 * 1'000'000;
    ASSERT_TRUE(store.clock_notice().has_value());
    EXPECT_EQ(store.clock_notice()->args.at("minutes"), "10");
    const auto after = store.append({note("p1", "b")});
    EXPECT_GT(after->front().stamp.clock, before->front().stamp.clock) << "order holds all the same";
    EXPECT_LT(after->front().stamp.at, before->front().stamp.at) << "and what the machine said is kept";
}

TEST_F(StoreFaults, KeepsDraftsAndSnapshotsSealed) {
    Store store = made();
    ASSERT_TRUE(store.put_draft("check-in p1", "half a sentence").ok());
    ASSERT_TRUE(store.put_draft("check-in p1", "half a sentence more").ok());
    ASSERT_TRUE(store.put_snapshot("check-in p1", "folded").ok());
    EXPECT_EQ(*store.draft("check-in p1"), "half a sentence more");
    EXPECT_EQ(*store.snapshot("check-in p1"), "folded");
    EXPECT_FALSE(store.draft("check-in p2")->has_value());
    ASSERT_TRUE(store.delete_draft("check-in p1").ok());
    EXPECT_FALSE(store.draft("check-in p1")->has_value());
}

TEST_F(StoreFaults, WritesNothingReadableIntoTheFile) {
    {
        Store store = made();
        ASSERT_TRUE(store.append({note("river-17", "weeping at night")}).ok());
        ASSERT_TRUE(store.put_draft("river-17", "weeping at night").ok());
        for (const auto& each : std::filesystem::directory_iterator(folder)) {
            std::ifstream file(each.path(), std::ios::binary);
            const std::string all((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
            for (const char* secret : {"river-17", "weeping", "note-added", "RX-1"})
                EXPECT_EQ(all.find(secret), std::string::npos) << secret << " in " << each.path();
        }
    }
}

}  // namespace evenfall
