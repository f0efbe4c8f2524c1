// SPDX-License-Identifier: GPL-3.0-or-later
#include "fixture.h"
#include "store/row.h"

namespace evenfall {

namespace {

/// What an attacker might lay into the schema of a store that somebody will open.
const std::vector<std::string> kSchemas{
    "CREATE TRIGGER t AFTER INSERT ON events BEGIN DELETE FROM events; END",
    "CREATE TRIGGER t AFTER INSERT ON header BEGIN UPDATE users SET name='x'; END",
    "CREATE VIEW v AS SELECT * FROM users",
    "CREATE TABLE extra(a)",
    "CREATE TABLE g(a, b AS (a || 'x'))",
    "CREATE INDEX i ON events(at)",
    "CREATE VIRTUAL TABLE f USING fts5(a)",
    "DROP INDEX events_by_log",
    "ALTER TABLE users ADD COLUMN more",
    "ALTER TABLE users ADD COLUMN more AS (name) VIRTUAL",
    "ALTER TABLE drafts RENAME TO drafts2",
    "DROP TABLE header; CREATE VIEW header AS SELECT 'clinic' AS name, x'00' AS value",
    "PRAGMA writable_schema=ON; UPDATE sqlite_schema SET sql='CREATE TABLE users(' WHERE name='users'",
    "PRAGMA writable_schema=ON; DELETE FROM sqlite_schema WHERE name='forks'",
};

using Hostile = StoreTest;

}  // namespace

TEST_F(Hostile, AStoreWithAnythingInItsSchemaThatAStoreHasNotIsRefused) {
    { Store store = made(); }
    const std::filesystem::path aside = folder / "whole";
    std::filesystem::copy_file(path, aside);
    for (const std::string& sql : kSchemas) {
        std::filesystem::copy_file(aside, path, std::filesystem::copy_options::overwrite_existing);
        meddle(sql);
        const std::string before = bytes_of(path);
        const auto store = opened();
        EXPECT_FALSE(store.ok()) << sql;
        EXPECT_TRUE(fault_id(store) == "store-strange-object" || fault_id(store) == "store-damaged")
            << sql << ": " << fault_id(store);
        EXPECT_EQ(bytes_of(path), before) << sql << ": a file that is refused is not written to";
    }
}

TEST_F(Hostile, AFileToMergeWithAnythingStrangeInItsSchemaIsRefused) {
    Store store = made();
    const std::filesystem::path aside = folder / "whole";
    const std::filesystem::path other = folder / "stick.evenfall";
    ASSERT_TRUE(store.backup(aside).ok());
    for (const std::string& sql : kSchemas) {
        std::filesystem::copy_file(aside, other, std::filesystem::copy_options::overwrite_existing);
        meddle_with(other, sql);
        EXPECT_FALSE(store.merge(other).ok()) << sql;
        EXPECT_TRUE(store.check()->whole()) << sql;
    }
}

TEST_F(Hostile, NamesAndTextsArePlainWordsToTheStore) {
    const std::string nasty = "Robert'); DROP TABLE events;-- <b>\"%s\\ \xE2\x80\xAE\n{0}";
    auto created = Store::create(path, nasty, {nasty, Role::prescriber, nasty}, kPassphrase, quick_options());
    ASSERT_EQ(fault_id(created), "");
    ASSERT_TRUE(created->store.append({note(nasty, nasty)}).ok());
    ASSERT_TRUE(created->store.put_draft(nasty, nasty).ok());
    ASSERT_TRUE(created->store.note_opened(nasty).ok());
    EXPECT_EQ(created->store.read(nasty)->front().event.body->at("text"), nasty);
    EXPECT_EQ(*created->store.draft(nasty), std::optional<Bytes>(nasty));
    EXPECT_EQ(created->store.clinic(), nasty);
    EXPECT_TRUE(created->store.check()->whole());
    created = Fault{"closed", "", {}};
    EXPECT_EQ(fault_id(Store::open(path, nasty, kPassphrase, quick_options(1'900'000'000'000'000))), "");
}

TEST_F(Hostile, FileNamesArePlainNamesToTheStore) {
    for (const char* name :
         {"with space.evenfall", "per%63ent%2F.evenfall", "quest?mode=memory&immutable=1",
          "file:odd.evenfall", "hash#tag.evenfall", "-dash", "quote'\"`$(x);.evenfall", "\xC3\xA4"}) {
        path = folder / name;
        {
            Store store = made();
            ASSERT_TRUE(store.append({note("p1", "kept")}).ok());
            ASSERT_EQ(fault_id(store.backup(path.string() + ".copy")), "") << name;
        }
        EXPECT_TRUE(std::filesystem::is_regular_file(path)) << name;
        auto store = opened();
        ASSERT_EQ(fault_id(store), "") << name;
        EXPECT_EQ(fault_id(store->merge(path.string() + ".copy")), "") << name;
        EXPECT_EQ(store->read("p1")->size(), 1U) << name;
    }
}

TEST_F(Hostile, ALinkInPlaceOfAFileIsNotFollowedWhenOneIsMade) {
    std::filesystem::create_symlink(folder / "elsewhere", path);
    EXPECT_EQ(fault_id(Store::create(path, "C", {"Ada", Role::prescriber, ""}, kPassphrase, quick_options())),
              "store-exists");
    EXPECT_FALSE(std::filesystem::exists(folder / "elsewhere"));
    path = folder / "real.evenfall";
    Store store = made();
    std::filesystem::create_symlink(folder / "elsewhere", folder / "backup.evenfall");
    EXPECT_EQ(fault_id(store.backup(folder / "backup.evenfall")), "store-exists");
    EXPECT_FALSE(std::filesystem::exists(folder / "elsewhere"));
}

TEST_F(Hostile, NothingIsLaidBesideAFileThatIsNoStore) {
    std::ofstream(folder / "letter.json") << "{\"not\": \"a store\"}";
    EXPECT_EQ(fault_id(Store::open(folder / "letter.json", "Ada", kPassphrase, quick_options())),
              "store-not-a-store");
    EXPECT_FALSE(std::filesystem::exists(folder / "letter.json.lock"));
    EXPECT_EQ(fault_id(Store::open(folder, "Ada", kPassphrase, quick_options())), "store-not-a-store");
    EXPECT_EQ(fault_id(Store::open("/dev/zero", "Ada", kPassphrase, quick_options())), "store-not-a-store");
}

TEST_F(Hostile, NestingBombsAreRefusedBeforeTheyAreRead) {
    const auto text = [](const std::string& body) {
        return R"({"patient":"p","kind":"k","version":1,"body":)" + body + "}";
    };
    EXPECT_TRUE(read_event(text("[]")).has_value());
    EXPECT_FALSE(read_event(text(std::string(1'000'000, '['))).has_value());
    EXPECT_FALSE(read_event(text(std::string(500'000, '[') + std::string(500'000, ']'))).has_value());
    std::string objects;
    for (int i = 0; i < 100'000; ++i) objects += "{\"a\":";
    EXPECT_FALSE(read_event(text(objects + "1" + std::string(100'000, '}'))).has_value());
    EXPECT_FALSE(read_event(std::string(64 << 20, ' ') + text("[]")).has_value()) << "size comes first";
}

TEST_F(Hostile, AVersionThatIsNoWholeNumberOfItsSizeIsRefusedAndNeverCutToOne) {
    const auto text = [](const std::string& version) {
        return R"({"patient":"p","kind":"k","version":)" + version + R"(,"body":{}})";
    };
    for (const char* fine : {"1", "2147483647", "-2147483648"}) {
        const auto event = read_event(text(fine));
        ASSERT_TRUE(event.has_value()) << fine;
        EXPECT_EQ(std::to_string(event->version), fine);
    }
    for (const char* wrong : {"1.5", "1.0", "1e87", "true", "\"1\"", "null", "2147483648", "4294967297",
                              "-2147483649", "9223372036854775808", "18446744073709551617"})
        EXPECT_FALSE(read_event(text(wrong)).has_value()) << wrong;
}

TEST_F(Hostile, ACostThatWouldEatAllMemoryIsRefused) {
    { Store store = made(); }
    meddle("UPDATE users SET memory=1099511627776");
    EXPECT_EQ(fault_id(opened()), "store-damaged");
}

}  // namespace evenfall
