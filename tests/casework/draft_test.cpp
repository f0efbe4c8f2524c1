// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "casework/store_log.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

/// A desk over a sealed store in memory, of which the store stays at hand.
class DraftDesk : public testing::Test {
  protected:
    void SetUp() override {
        auto formulary = load_formulary(resources_folder() / "formulary.json");
        auto rules = Rules::load(resources_folder() / "rules.json");
        ASSERT_TRUE(formulary && rules);
        StoreOptions options;
        options.kdf = crypto::Kdf::least();
        auto log = std::make_unique<StoreLog>(
            Store::in_memory("Hill Street", {"Ada Prescriber", Role::prescriber, ""}, options));
        log_ = log.get();
        const Worker worker = worker_of(log->store());
        auto desk = Desk::open(std::move(log), *formulary, *rules, worker);
        ASSERT_TRUE(desk);
        desk_ = std::make_unique<Desk>(std::move(*desk));
    }
    StoreLog* log_ = nullptr;
    std::unique_ptr<Desk> desk_;
    Day today_ = day_at(2026, 12, 20);
};

}  // namespace

TEST_F(DraftDesk, KeepsOneDraftForEachPersonAndKind) {
    ASSERT_TRUE(desk_->put_draft("p1", "check-in", "half a talk"));
    ASSERT_TRUE(desk_->put_draft("p1", "note", "half a note"));
    ASSERT_TRUE(desk_->put_draft("p1", "check-in", "most of a talk"));
    EXPECT_EQ(*desk_->read_draft("p1", "check-in"), std::optional<std::string>("most of a talk"));
    EXPECT_EQ(*desk_->read_draft("p1", "note"), std::optional<std::string>("half a note"));
    EXPECT_EQ(*desk_->read_draft("p2", "check-in"), std::nullopt);
    ASSERT_TRUE(desk_->drop_draft("p1", "check-in"));
    EXPECT_EQ(*desk_->read_draft("p1", "check-in"), std::nullopt);
    EXPECT_TRUE(desk_->read_draft("p1", "note")->has_value());
}

TEST_F(DraftDesk, NotesAnOpeningOncePerPersonAndDay) {
    ASSERT_TRUE(desk_->note_opened("p1", today_));
    ASSERT_TRUE(desk_->note_opened("p1", today_));
    ASSERT_TRUE(desk_->note_opened("p2", today_));
    ASSERT_TRUE(desk_->note_opened("p1", today_ + std::chrono::days(1)));
    ASSERT_TRUE(desk_->note_opened("", today_));
    const auto lines = log_->store().accesses();
    ASSERT_TRUE(lines);
    ASSERT_EQ(lines->size(), 3U);
    EXPECT_EQ((*lines)[2].patient, "p1");
    EXPECT_TRUE(desk_->patients().empty()) << "the access log is no patient";
}

TEST(DraftInMemory, ALogInMemoryKeepsDraftsWhileItLives) {
    const auto log = log_in_memory("user", [] { return Instant(); });
    ASSERT_TRUE(log->put_draft("p1", "check-in", "half"));
    EXPECT_EQ(*log->read_draft("p1", "check-in"), std::optional<std::string>("half"));
    ASSERT_TRUE(log->drop_draft("p1", "check-in"));
    EXPECT_EQ(*log->read_draft("p1", "check-in"), std::nullopt);
}

}  // namespace evenfall
