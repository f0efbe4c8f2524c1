// SPDX-License-Identifier: GPL-3.0-or-later
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "rules/texts.h"

namespace evenfall {
namespace {

/// A folder of resources of our own, taken away at the end.
class TextsLoading : public ::testing::Test {
  protected:
    void SetUp() override {
        const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
        root_ = std::filesystem::temp_directory_path() / (std::string("evenfall-texts-") + test->name());
        std::filesystem::create_directories(root_ / "texts" / "en");
    }
    void TearDown() override { std::filesystem::remove_all(root_); }

    void write(const std::string& name, const std::string& text) const {
        std::ofstream(root_ / "texts" / "en" / name) << text;
    }
    std::vector<std::string> said() const {
        std::vector<std::string> said;
        const auto loaded = Texts::load(root_, "en");
        if (!loaded)
            for (const Fault& fault : loaded.faults()) said.push_back(fault.id);
        return said;
    }

    std::filesystem::path root_;
};

TEST_F(TextsLoading, TakesEveryFileOfTheLanguage) {
    write("a.json", R"({"one": "1"})");
    write("b.json", R"({"two": "{n} of two"})");
    const auto texts = Texts::load(root_, "en").value();
    EXPECT_EQ(texts.text("one"), "1");
    EXPECT_EQ(texts.text("two", {{"n", "half"}}), "half of two");
}

TEST_F(TextsLoading, RefusesAnIdInTwoFilesAndTwiceInOne) {
    write("a.json", R"({"one": "1"})");
    write("b.json", R"({"one": "2"})");
    write("c.json", R"({"three": "3", "three": "4"})");
    EXPECT_EQ(said(), (std::vector<std::string>{"texts-twice", "json-key-twice"}));
}

TEST_F(TextsLoading, RefusesWhatIsNoSentence) {
    write("a.json", R"({"one": 1})");
    write("b.json", R"(["one"])");
    write("c.json", "{");
    EXPECT_EQ(said(), (std::vector<std::string>{"texts-not-a-sentence", "texts-not-json", "json-broken"}));
}

}  // namespace
}  // namespace evenfall
