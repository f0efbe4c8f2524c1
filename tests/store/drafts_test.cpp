// SPDX-License-Identifier: GPL-3.0-or-later
#include <csignal>

#include <sys/wait.h>

#include "fixture.h"

namespace evenfall {

namespace {

using DraftTest = StoreTest;

/// Runs `act` on the store in a process of its own, which is then killed without a chance to close anything.
template <class Act>
void killed_after(const std::filesystem::path& path, Act act) {
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        auto store = Store::open(path, "Ada Prescriber", kPassphrase, quick_options(1'900'000'000'000'000));
        if (!store || !act(*store)) _exit(1);
        raise(SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself";
}

}  // namespace

TEST_F(DraftTest, ADraftOutlivesAKillAndIsReplacedInPlace) {
    { Store store = made(); }
    killed_after(path, [](Store& store) {
        return store.put_draft("p1\ncheck-in", "one").ok() && store.put_draft("p1\ncheck-in", "two").ok() &&
               store.put_draft("p2\ncheck-in", "other").ok();
    });
    auto store = opened();
    ASSERT_EQ(fault_id(store), "");
    EXPECT_EQ(*store->draft("p1\ncheck-in"), std::optional<Bytes>("two"));
    EXPECT_EQ(*store->draft("p2\ncheck-in"), std::optional<Bytes>("other"));
    EXPECT_EQ(*store->draft("p3\ncheck-in"), std::nullopt);
}

TEST_F(DraftTest, ADroppedDraftStaysDroppedAfterAKill) {
    {
        Store store = made();
        ASSERT_TRUE(store.put_draft("p1\ncheck-in", "one").ok());
    }
    killed_after(path, [](Store& store) { return store.delete_draft("p1\ncheck-in").ok(); });
    auto store = opened();
    EXPECT_EQ(*store->draft("p1\ncheck-in"), std::nullopt);
}

TEST_F(DraftTest, NothingOfADraftStandsInTheFileInClear) {
    {
        Store store = made();
        ASSERT_TRUE(store.put_draft("river-17\ncheck-in", "the quick brown words").ok());
    }
    for (const auto& each : std::filesystem::directory_iterator(folder)) {
        const std::string bytes = bytes_of(each.path());
        EXPECT_EQ(bytes.find("quick brown"), std::string::npos) << each.path();
        EXPECT_EQ(bytes.find("river-17"), std::string::npos) << each.path();
    }
}

}  // namespace evenfall
