// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"
#include "store/backup_run.h"

namespace evenfall {

namespace {

class Restore : public StoreTest {
  protected:
    /// A store with two entries and a back-up of it; the store then gets a third entry.
    Restore() : backup(folder / "copy.evenfall") {
        Store store = made();
        EXPECT_TRUE(store.append({note("p1", "first"), note("p2", "second")}).ok());
        EXPECT_TRUE(store.backup(backup).ok());
        EXPECT_TRUE(store.append({note("p1", "after the back-up")}).ok());
    }
    std::filesystem::path backup;
};

}  // namespace

TEST_F(Restore, ShowsWhatWouldBeLostAndGained) {
    {
        auto other = Store::open(backup, "Ada Prescriber", kPassphrase, quick_options(1'910'000'000'000'000));
        ASSERT_TRUE(other->append({note("p2", "only there"), note("p3", "only there")}).ok());
    }
    auto store = opened();
    const auto preview = store->preview_restore(backup);
    ASSERT_EQ(fault_id(preview), "");
    EXPECT_EQ(preview->patients.at("p1"), (RestorePreview::Count{0, 1}));
    EXPECT_EQ(preview->patients.at("p2"), (RestorePreview::Count{1, 0}));
    EXPECT_EQ(preview->patients.at("p3"), (RestorePreview::Count{1, 0}));
    EXPECT_EQ(preview->authors.at(store->user().grant.id), (RestorePreview::Count{2, 1}));
    EXPECT_EQ(preview->logs.size(), 2U) << "a copy elsewhere writes a log of its own";
    EXPECT_EQ(preview->unreadable, 0);
    EXPECT_EQ(preview->ours, *store->heads());
}

TEST_F(Restore, PutsTheBackUpInPlaceAndKeepsWhatStoodThere) {
    const auto kept = restore_store(backup, path, "20270104-090000");
    ASSERT_EQ(fault_id(kept), "");
    EXPECT_EQ(kept->filename(), "clinic.evenfall.before-20270104-090000");
    {
        auto store = opened();
        EXPECT_EQ(store->read("p1")->size(), 1U);
        const LogId before = store->heads()->begin()->first;
        ASSERT_TRUE(store->append({note("p1", "after the restore")}).ok());
        EXPECT_NE(store->log(), before) << "a restored copy goes on under a log of its own";
        EXPECT_EQ(fault_id(store->merge(*kept)), "") << "and what was lost can be merged back";
        EXPECT_EQ(store->read("p1")->size(), 3U);
        EXPECT_TRUE(store->check()->whole());
    }
    EXPECT_TRUE(std::filesystem::exists(backup));
}

TEST_F(Restore, ReplacesAStoreThatCannotBeReadAnyMore) {
    std::ofstream(path, std::ios::binary) << "ruined";
    EXPECT_EQ(fault_id(opened()), "store-not-a-store");
    const auto kept = restore_store(backup, path, "1");
    ASSERT_EQ(fault_id(kept), "");
    EXPECT_EQ(bytes_of(*kept), "ruined") << "also the ruin is kept";
    EXPECT_EQ(opened()->read("p1")->size(), 1U);
}

TEST_F(Restore, RestoresWhereNothingStands) {
    std::filesystem::remove(path);
    const auto kept = restore_store(backup, path, "1");
    ASSERT_EQ(fault_id(kept), "");
    EXPECT_TRUE(kept->empty());
    EXPECT_EQ(opened()->read("p2")->size(), 1U);
}

TEST_F(Restore, TheWriteAheadLogOfAKilledProgramNeverMeetsAnotherFile) {
    std::ofstream(path.string() + "-wal", std::ios::binary) << "the newest rows of the old file";
    const auto kept = restore_store(backup, path, "1");
    ASSERT_EQ(fault_id(kept), "");
    EXPECT_FALSE(std::filesystem::exists(path.string() + "-wal"));
    EXPECT_EQ(bytes_of(kept->string() + "-wal"), "the newest rows of the old file");
}

TEST_F(Restore, RefusesADamagedBackUpAndAStoreInUseAndChangesNothing) {
    const std::string before = bytes_of(path);
    meddle_with(backup, "UPDATE events SET at=at+1 WHERE sequence=3");
    EXPECT_EQ(fault_id(restore_store(backup, path, "1")), "backup-differs");
    EXPECT_EQ(bytes_of(path), before);
    std::filesystem::remove(backup);
    auto store = opened();
    ASSERT_TRUE(store->backup(backup).ok());
    EXPECT_EQ(fault_id(restore_store(backup, path, "1")), "store-in-use");
    EXPECT_TRUE(store->append({note("p1", "still at work")}).ok());
}

TEST_F(Restore, ABackUpInPartsTakesUpWhatIsWrittenMeanwhile) {
    auto store = opened();
    std::vector<Event> many;
    for (int i = 0; i < 5000; ++i) many.push_back(note("p4", std::string(300, 'x')));
    ASSERT_TRUE(store->append(many).ok());
    const auto to = folder / "parts.evenfall";
    auto run = BackupRun::begin(*store, to);
    ASSERT_EQ(fault_id(run), "");
    int steps = 0;
    for (auto finished = (*run)->step(); finished.ok() && !*finished; finished = (*run)->step()) {
        ++steps;
        ASSERT_TRUE(store->append({note("p5", std::to_string(steps))}).ok());
    }
    EXPECT_GT(steps, 1);
    EXPECT_EQ((*run)->percent(), 100);
    const auto heads = (*run)->proof()();
    ASSERT_EQ(fault_id(heads), "");
    EXPECT_EQ(*heads, *store->heads());
    auto copy = Store::open(to, "Ada Prescriber", kPassphrase, quick_options(1'950'000'000'000'000));
    EXPECT_EQ(copy->read("p5")->size(), static_cast<std::size_t>(steps));
    EXPECT_TRUE(copy->check()->whole());
}

TEST_F(Restore, AnUnfinishedBackUpLeavesNoFileAndADamagedOneIsRemoved) {
    auto store = opened();
    const auto to = folder / "parts.evenfall";
    { auto run = BackupRun::begin(*store, to); }
    EXPECT_FALSE(std::filesystem::exists(to));
    auto run = BackupRun::begin(*store, to);
    while (!*(*run)->step()) continue;
    meddle_with(to, "UPDATE events SET at=at+1 WHERE sequence=3");
    EXPECT_EQ(fault_id((*run)->proof()()), "backup-differs");
    EXPECT_FALSE(std::filesystem::exists(to));
}

TEST_F(Restore, AMarkOfTheNewestRowTellsAnOlderCopy) {
    std::vector<Mark> marks;
    Heads known;
    {
        auto store = opened();
        const auto heads = store->heads();
        for (const auto& [log, head] : *heads) {
            const auto mark = read_mark(print_mark(log, head));
            ASSERT_EQ(fault_id(mark), "");
            marks.push_back(*mark);
        }
        EXPECT_TRUE(store->missing(marks).empty());
        known = *store->heads_of_file(backup);
        EXPECT_TRUE(store->check(known)->whole()) << "the back-up's head is one of ours";
    }
    ASSERT_EQ(fault_id(restore_store(backup, path, "1")), "");
    auto older = opened();
    ASSERT_EQ(older->missing(marks).size(), 1U);
    EXPECT_EQ(older->missing(marks).front().id, "head-missing");
    for (const char* text : {"", "-", "1a2b3c4d-0-0123456789abcdef", "1a2b3c4d-5-0123456789abcde",
                             "1A2B3C4D-5-0123456789abcdef", "1a2b3c4d-99999999999999999999-0123456789abcdef"})
        EXPECT_EQ(fault_id(read_mark(text)), "mark-shape") << text;
}

}  // namespace evenfall
