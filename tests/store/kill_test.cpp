// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <random>

#include <poll.h>
#include <sys/wait.h>

#include "fixture.h"

namespace evenfall {

namespace {

/// How often the writer is killed; EVENFALL_KILLS asks for more in a long run by hand.
int kills() {
    constexpr int usual = 20;
    const char* asked = std::getenv("EVENFALL_KILLS");
    return asked == nullptr ? usual : std::max(usual, std::atoi(asked));
}

/// Appends without end and says on `told` how many entries are on the disk, after each append.
[[noreturn]] void write_until_killed(const std::filesystem::path& path, int told) {
    auto store = Store::open(path, "Ada Prescriber", kPassphrase, quick_options(1'900'000'000'000'000));
    if (!store) _exit(1);
    std::int64_t written = static_cast<std::int64_t>(store->read("p1")->size());
    for (int i = 0;; ++i) {
        const auto stored =
            store->append({note("p1", std::to_string(written)), note("p2", std::to_string(i))});
        if (!stored) _exit(2);
        ++written;
        if (write(told, &written, sizeof written) != sizeof written) _exit(3);
    }
}

/// Waits until the writer has told something, so that it is killed at work however slow the machine is; some
/// seconds at most.
void wait_for_work(int from) {
    constexpr int most = 10'000;
    pollfd end{from, POLLIN, 0};
    poll(&end, 1, most);
}

/// The last number that was told before the other end closed.
std::int64_t last_told(int from, std::int64_t before) {
    std::int64_t told = before;
    for (std::int64_t next = 0; read(from, &next, sizeof next) == sizeof next;) told = next;
    return told;
}

}  // namespace

TEST_F(StoreTest, LosesNoAcknowledgedEntryWhenItIsKilledAtAnyInstant) {
    { Store store = made(); }
    std::mt19937 random(20270104);
    std::int64_t acknowledged = 0;
    for (int kill_number = 0; kill_number < kills(); ++kill_number) {
        int ends[2] = {-1, -1};
        ASSERT_EQ(pipe(ends), 0);
        const pid_t child = fork();
        ASSERT_GE(child, 0);
        if (child == 0) {
            close(ends[0]);
            write_until_killed(path, ends[1]);
        }
        close(ends[1]);
        if (kill_number % 2 == 0) wait_for_work(ends[0]);  // the others are killed while they open, too
        usleep(static_cast<useconds_t>(5'000 + random() % 60'000));
        kill(child, SIGKILL);
        acknowledged = last_told(ends[0], acknowledged);
        close(ends[0]);
        int status = 0;
        waitpid(child, &status, 0);
        ASSERT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself with " << WEXITSTATUS(status);
        auto store = opened(quick_options(1'900'000'000'000'000));
        ASSERT_EQ(fault_id(store), "");
        const auto found = static_cast<std::int64_t>(store->read("p1")->size());
        ASSERT_GE(found, acknowledged);
        ASSERT_LE(found, acknowledged + 1) << "at most the one that was under way";
        ASSERT_EQ(store->read("p2")->size(), store->read("p1")->size()) << "never half of an append";
        acknowledged = found;
    }
    EXPECT_GE(acknowledged, kills() / 2) << "the writer must have been at work";
    auto store = opened(quick_options(1'990'000'000'000'000));
    const auto report = store->check();
    EXPECT_TRUE(report->whole());
    RecordProperty("acknowledged", static_cast<int>(acknowledged));
    RecordProperty("kills", kills());
}

}  // namespace evenfall
