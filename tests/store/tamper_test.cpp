// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"

namespace evenfall {

namespace {

bool reports(const CheckReport& report, const std::string& id) {
    return std::any_of(report.damage.begin(), report.damage.end(),
                       [&](const Fault& each) { return each.id == id; });
}

std::string damage_of(const CheckReport& report) {
    std::string text;
    for (const Fault& each : report.damage) text += each.id + " " + each.place + "; ";
    return text;
}

class Tamper : public StoreTest {
  protected:
    /// Rows 3 to 8: p1, p2, p1, p2, p1, p2, each written by itself.
    Tamper() {
        Store store = made();
        for (const char* text : {"one", "two", "three"})
            for (const char* patient : {"p1", "p2"}) EXPECT_TRUE(store.append({note(patient, text)}).ok());
        heads = *store.heads();
    }
    CheckReport checked(const Heads& known = {}) {
        auto store = opened();
        if (!store) throw std::runtime_error("not opened: " + store.faults().front().id);
        return *store->check(known);
    }
    Heads heads;
};

}  // namespace

TEST_F(Tamper, FindsNothingInAWholeStore) {
    const CheckReport report = checked(heads);
    EXPECT_TRUE(report.whole()) << damage_of(report);
    EXPECT_EQ(report.rows, 8);
    EXPECT_EQ(report.sound, 8);
    EXPECT_EQ(report.signatures, 8);
    EXPECT_EQ(report.readable, (std::set<PatientId>{"p1", "p2"}));
}

TEST_F(Tamper, NoticesAFlippedByteInEveryColumnOfARow) {
    const std::string aside = path.string() + ".whole";
    std::filesystem::copy_file(path, aside);
    for (const char* column :
         {"patient", "log", "event", "author", "previous", "hash", "signature", "sealed"}) {
        for (const int at : {1, 5, 16}) {
            std::filesystem::copy_file(aside, path, std::filesystem::copy_options::overwrite_existing);
            const std::string name = column;
            // The byte goes to its neighbour: 0 and 1, 2 and 3, … change places, through hexadecimal text.
            meddle("UPDATE events SET " + name + "=CAST(substr(" + name + ",1," + std::to_string(at - 1) +
                   ") || (CASE hex(substr(" + name + "," + std::to_string(at) +
                   ",1)) WHEN '00' THEN x'01' ELSE x'00' END) || substr(" + name + "," +
                   std::to_string(at + 1) + ") AS BLOB) WHERE sequence=5");
            auto store = opened();
            ASSERT_TRUE(store.ok()) << column;
            EXPECT_FALSE(store->check()->whole()) << column << " byte " << at;
            EXPECT_EQ(store->read("p1").ok(), name == "signature") << column << " byte " << at;
        }
    }
    for (const char* column : {"clock", "sequence", "number", "at", "epoch"}) {
        std::filesystem::copy_file(aside, path, std::filesystem::copy_options::overwrite_existing);
        const std::string name = column;
        meddle("UPDATE events SET " + name + "=" + name + "+100 WHERE sequence=5");
        auto store = opened();
        ASSERT_TRUE(store.ok()) << column;
        EXPECT_FALSE(store->read("p1").ok()) << column;
        EXPECT_FALSE(store->check()->whole()) << column;
    }
}

TEST_F(Tamper, NoticesARowThatWasTakenOut) {
    meddle("DELETE FROM events WHERE sequence=5");
    auto store = opened();
    EXPECT_EQ(fault_id(store->read("p1")), "row-missing-before");
    EXPECT_TRUE(store->read("p2").ok()) << "others stay readable";
    const CheckReport report = *store->check();
    EXPECT_TRUE(reports(report, "rows-missing")) << damage_of(report);
    EXPECT_EQ(report.damage.front().args.at("from"), "5");
}

TEST_F(Tamper, NoticesTheNewestRowsMissingAgainstAKnownHeadOnly) {
    meddle("DELETE FROM events WHERE sequence=8");
    EXPECT_TRUE(checked().whole()) << "nothing in the file itself can tell";
    EXPECT_TRUE(reports(checked(heads), "head-missing"));
}

TEST_F(Tamper, NoticesADuplicatedRow) {
    meddle(
        "INSERT INTO events SELECT patient, clock+1, log, 9, number, at, event, author, epoch, previous, "
        "hash, "
        "signature, sealed FROM events WHERE sequence=8");
    EXPECT_FALSE(opened()->read("p2").ok());
    EXPECT_TRUE(reports(checked(), "row-changed"));
}

TEST_F(Tamper, NoticesRowsThatChangedPlaces) {
    meddle(
        "UPDATE events SET sequence=100 WHERE sequence=5; UPDATE events SET sequence=5 WHERE sequence=7;"
        "UPDATE events SET sequence=7 WHERE sequence=100");
    EXPECT_FALSE(opened()->read("p1").ok());
    EXPECT_FALSE(checked().whole());
}

TEST_F(Tamper, NoticesSealedTextSwappedBetweenRows) {
    meddle(
        "CREATE TEMP TABLE kept AS SELECT sequence, sealed FROM events WHERE sequence IN (5, 6);"
        "UPDATE events SET sealed=(SELECT sealed FROM kept WHERE kept.sequence=11-events.sequence) WHERE "
        "sequence IN (5, 6)");
    EXPECT_EQ(fault_id(opened()->read("p1")), "row-changed");
    EXPECT_EQ(fault_id(opened()->read("p2")), "row-changed");
}

TEST_F(Tamper, NoticesARowThatWasMovedToAnotherPatient) {
    meddle("UPDATE events SET patient=(SELECT patient FROM events WHERE sequence=4) WHERE sequence=3");
    EXPECT_FALSE(opened()->read("p2").ok());
    EXPECT_FALSE(checked().whole());
}

TEST_F(Tamper, NoticesARowFromAnotherStore) {
    const std::filesystem::path other = folder / "other.evenfall";
    {
        auto created = Store::create(other, "Elsewhere", {"Ben Prescriber", Role::prescriber, ""},
                                     kPassphrase, quick_options());
        ASSERT_TRUE(created.ok());
        ASSERT_TRUE(created->store.append({note("p1", "foreign")}).ok());
    }
    meddle("ATTACH '" + other.string() +
           "' AS other; DELETE FROM events WHERE sequence=8;"
           "INSERT INTO events SELECT o.patient, o.clock+100000000, e.log, 8, o.number, o.at, o.event, "
           "o.author, o.epoch, "
           "e.hash, o.hash, o.signature, o.sealed FROM other.events o, events e WHERE o.sequence=3 AND "
           "e.sequence=7");
    EXPECT_TRUE(reports(checked(), "row-changed"));
}

TEST_F(Tamper, ReadsWhatIsLeft) {
    meddle("UPDATE events SET sealed=x'00' WHERE sequence=5");
    auto store = opened();
    const auto salvage = store->read_what_is_left("p1");
    ASSERT_TRUE(salvage.ok());
    EXPECT_EQ(salvage->events.size(), 2U);
    ASSERT_EQ(salvage->damage.size(), 1U);
    EXPECT_NE(salvage->damage.front().place.find(" 5"), std::string::npos) << "names the row";
    const CheckReport report = *store->check();
    EXPECT_EQ(report.sound, 7);
    EXPECT_EQ(report.readable, (std::set<PatientId>{"p1", "p2"}));
}

TEST_F(Tamper, NoticesASignatureByAnotherKey) {
    meddle("UPDATE events SET signature=(SELECT signature FROM events WHERE sequence=6) WHERE sequence=5");
    EXPECT_TRUE(opened()->read("p1").ok()) << "reading does not verify signatures";
    EXPECT_TRUE(reports(checked(), "row-signature-wrong"));
}

TEST_F(Tamper, NoticesASignatureThatWasTakenAway) {
    meddle("UPDATE events SET signature=x'' WHERE sequence=5");
    EXPECT_TRUE(reports(checked(), "row-changed"));
}

TEST_F(Tamper, NoticesDamagedKeysOfAUser) {
    {
        auto store = opened();
        ASSERT_TRUE(store->grant({"Cleo Nurse", Role::nurse, ""}, kPassphrase).ok());
    }
    meddle("UPDATE users SET sealed=x'00' WHERE name='Cleo Nurse'");
    EXPECT_TRUE(reports(checked(), "user-keys-damaged"));
    EXPECT_EQ(fault_id(Store::open(path, "Cleo Nurse", kPassphrase, quick_options())), "store-damaged");
}

TEST_F(Tamper, RefusesAHeaderWithAnotherFoundingKey) {
    meddle("UPDATE header SET value=zeroblob(32) WHERE name='founding key'");
    EXPECT_EQ(fault_id(opened()), "store-damaged");
}

TEST_F(Tamper, RefusesADataKeyThatNobodyAnnounced) {
    // Whoever can write the file could seal a key of their own to a user; it must never be written with.
    meddle("INSERT INTO data_keys SELECT user, 9000000000000000000, sealed FROM data_keys");
    auto store = opened();
    ASSERT_TRUE(store.ok());
    ASSERT_TRUE(store->append({note("p1", "after")}).ok());
    EXPECT_TRUE(store->read("p1").ok());
    EXPECT_TRUE(store->check()->whole());
    store = Fault{"closed", "", {}};
    sqlite3* db = nullptr;
    ASSERT_EQ(sqlite3_open(path.c_str(), &db), SQLITE_OK);
    sqlite3_stmt* most = nullptr;
    sqlite3_prepare_v2(db, "SELECT max(epoch) FROM events", -1, &most, nullptr);
    ASSERT_EQ(sqlite3_step(most), SQLITE_ROW);
    EXPECT_EQ(sqlite3_column_int64(most, 0), 1);
    sqlite3_finalize(most);
    sqlite3_close(db);
}

TEST_F(Tamper, SaysHowFarACheckIsAndCanEndIt) {
    {
        Store store = *opened();
        std::vector<Event> many;
        for (int i = 0; i < 600; ++i) many.push_back(note("p3", std::to_string(i)));
        ASSERT_TRUE(store.append(many).ok());
    }
    auto store = opened();
    std::int64_t seen = 0;
    const auto whole =
        store->check({}, [&](std::int64_t done, std::int64_t all) { return seen = done, all == 608; });
    EXPECT_TRUE(whole->whole()) << damage_of(*whole);
    EXPECT_EQ(seen, 608);
    EXPECT_EQ(whole->signatures, 9) << "one signature covers what was written together";
    EXPECT_FALSE(store->check({}, [](auto, auto) { return false; })->complete);
}

}  // namespace evenfall
