// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "fixture.h"

namespace evenfall {

namespace {

/// Copies of the stores that each shipped format left; the kept ones are never written to.
class Sample : public StoreTest {
  protected:
    void take(const char* name) const {
        std::filesystem::copy_file(std::filesystem::path(EVENFALL_SOURCE_DIR) / "tests/store/samples" / name,
                                   path);
    }
};

}  // namespace

TEST_F(Sample, AStoreOfTheFirstFormatOpensForEver) {
    take("format-1.evenfall");
    auto store = opened();
    ASSERT_EQ(fault_id(store), "");
    EXPECT_TRUE(store->check()->whole());
    EXPECT_EQ(store->read("p1")->size(), 2U);
    EXPECT_EQ(store->read("p1")->back().event.body->at("text"), "under the new key");
    EXPECT_EQ(store->read("p2")->front().event.body->at("text"), "second");
    EXPECT_EQ(*store->draft("p1\ncheck-in"), std::optional<Bytes>("half"));
    EXPECT_EQ(*store->snapshot("line"), std::optional<Bytes>("kept"));
    EXPECT_EQ(store->accesses()->size(), 1U);
    const auto users = store->users();
    EXPECT_EQ(std::ranges::count_if(users, [](const User& each) { return !each.open(); }), 1)
        << "a user who left";
    EXPECT_TRUE(store->append({note("p1", "goes on")}).ok());
}

TEST_F(Sample, AnExchangeFileOfTheFirstFormatIsTakenUp) {
    take("format-1.evenfall");
    std::filesystem::copy_file(
        std::filesystem::path(EVENFALL_SOURCE_DIR) / "tests/store/samples/format-1-other.evenfall",
        folder / "stick");
    auto store = opened();
    const auto merged = store->merge(folder / "stick");
    ASSERT_EQ(fault_id(merged), "");
    EXPECT_EQ(merged->gained, 1);
    EXPECT_EQ(store->read("p2")->back().event.body->at("text"), "from the other laptop");
}

TEST_F(Sample, AStoreOfALaterFormatIsRefusedAndNotWrittenTo) {
    take("format-1.evenfall");
    meddle("PRAGMA user_version=2");
    const std::string before = bytes_of(path);
    EXPECT_EQ(fault_id(opened()), "store-newer-version");
    EXPECT_EQ(bytes_of(path), before);
}

}  // namespace evenfall
