// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "failing_disk.h"
#include "fixture.h"

namespace evenfall {

namespace {

constexpr std::int64_t kLater = 1'900'000'000'000'000;
/// More calls of a sort than one course makes; the course that meets no failure ends the search.
constexpr int kMostCalls = 400;

class Disk : public StoreTest {
  protected:
    /// Opens the store and writes entries, as far as the disk lets it. Returns what was acknowledged.
    std::vector<std::string> write_on() {
        std::vector<std::string> acknowledged;
        auto store = opened(quick_options(kLater + std::int64_t{1'000'000'000} * round));
        if (!store) return acknowledged;
        for (int i = 0; i < 4; ++i) {
            const std::string text = std::to_string(round) + "." + std::to_string(i);
            if (store->append({note("p1", text), note("p2", text + std::string(5000, 'x'))}))
                acknowledged.push_back(text);
        }
        return acknowledged;
    }

    /// Every acknowledged entry is there, none by half, and every row proves.
    void expect_nothing_lost(const std::vector<std::string>& acknowledged) {
        auto store = opened(quick_options(2'000'000'000'000'000));
        ASSERT_EQ(fault_id(store), "");
        const auto events = store->read("p1");
        ASSERT_TRUE(events.ok());
        std::vector<std::string> found;
        for (const StoredEvent& each : *events) found.push_back(each.event.body->at("text"));
        for (const std::string& each : acknowledged)
            EXPECT_NE(std::find(found.begin(), found.end(), each), found.end()) << each;
        EXPECT_EQ(store->read("p2")->size(), found.size()) << "never half of an append";
        EXPECT_TRUE(store->check()->whole());
    }

    void fail_everywhere(Trouble trouble, int times) {
        { Store store = made(); }
        std::vector<std::string> all;
        FailingDisk disk;
        for (round = 1; round < kMostCalls; ++round) {
            disk.fail_at(trouble, round, times);
            const auto acknowledged = write_on();
            disk.mend();
            all.insert(all.end(), acknowledged.begin(), acknowledged.end());
            if (!disk.has_failed()) break;
            // After a power cut each file is another: each is looked at.
            if (round % 5 == 0 || trouble == Trouble::power_cut) expect_nothing_lost(all);
            if (HasFatalFailure()) return;
        }
        EXPECT_LT(round, kMostCalls);
        EXPECT_GT(round, 2) << "the disk must have failed";
        expect_nothing_lost(all);
        RecordProperty("calls", round);
    }

    int round = 0;
};

}  // namespace

TEST_F(Disk, LosesNothingWhenAnyWriteFails) {
    fail_everywhere(Trouble::write_error, 1);
}

TEST_F(Disk, LosesNothingWhenAllWritesFailFromAnyOneOn) {
    fail_everywhere(Trouble::write_error, 1'000'000);
}

TEST_F(Disk, LosesNothingWhenAnyWriteIsCutShort) {
    fail_everywhere(Trouble::short_write, 1);
}

TEST_F(Disk, LosesNothingWhenTheDiskIsFullFromAnyWriteOn) {
    fail_everywhere(Trouble::full, 1'000'000);
}

TEST_F(Disk, LosesNothingWhenAnySyncFails) {
    fail_everywhere(Trouble::sync_error, 1);
}

TEST_F(Disk, LosesNothingWhenAnySyncIsLost) {
    fail_everywhere(Trouble::lost_sync, 1);
}

TEST_F(Disk, LosesNothingWhenThePowerGoesAtAnyCall) {
    fail_everywhere(Trouble::power_cut, 1'000'000);
}

TEST_F(Disk, LosesNothingWhenAnyReadFails) {
    fail_everywhere(Trouble::read_error, 1);
}

}  // namespace evenfall
