// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/plain_json.h"

#include <random>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace evenfall {
namespace {

const std::string kEntry =
    R"({"at":"2026-12-08T10:00:00","answers":{"seizure":"no"},"days":[1,-2,0.25,-0,null,true,false,[],{}]})";

TEST(PlainJson, IsWhatNearlyEveryEntryIs) {
    for (const std::string& text : {kEntry, std::string("7"), std::string("\"\""), std::string("[[[]]]")})
        EXPECT_TRUE(is_plain_json(text)) << text;
}

TEST(PlainJson, LeavesEverythingElseToTheLibrary) {
    for (const char* text : {"",     "[1, 2]", "\"\\n\"", "\"\xC3\xA9\"", "1e5",      "1234567890123456",
                             "[1,]", "[1",     "{\"a\"}", "{1:2}",        "{\"a\":}", "01",
                             "1.",   ".5",     "-",       "+1",           "nul",      "truefalse",
                             "\"",   "\"\t\"", "[]]",     "[}",           "{]"})
        EXPECT_FALSE(is_plain_json(text)) << text;
    EXPECT_TRUE(is_plain_json(std::string(64, '[') + std::string(64, ']')));
    EXPECT_FALSE(is_plain_json(std::string(100'000, '['))) << "and ends";
}

/// Whatever it takes the library takes: else a text would be told to be whole and not be read afterwards.
TEST(PlainJson, NeverTakesWhatTheLibraryRefuses) {
    std::mt19937 dice(20270104);  // NOLINT: the same texts every time
    const std::string signs = R"("{}[],:-.0123456789eE+\ntrufals )";
    std::size_t taken = 0;
    std::size_t refused = 0;
    for (int round = 0; round < 200'000; ++round) {
        std::string text = kEntry.substr(dice() % kEntry.size());
        if (round % 2 == 0) text = kEntry;
        for (auto change = dice() % 3 + 1; change > 0 && !text.empty(); --change) {
            const std::size_t at = dice() % text.size();
            const char sign = signs[dice() % signs.size()];
            if (const auto way = dice() % 3; way == 0)
                text[at] = sign;
            else if (way == 1)
                text.erase(at, 1 + dice() % 4);
            else
                text.insert(at, 1, sign);
        }
        if (is_plain_json(text)) {
            ++taken;
            ASSERT_TRUE(nlohmann::json::accept(text)) << text;
        } else {
            ++refused;
        }
    }
    EXPECT_GT(taken, 1000U) << "the changes leave some whole";
    EXPECT_GT(refused, 1000U);
}

}  // namespace
}  // namespace evenfall
