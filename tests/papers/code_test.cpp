// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/code.h"

#include <set>

#include <gtest/gtest.h>

namespace evenfall::papers {
namespace {

TEST(PaperCode, IsTwoGroupsOfFourFromTheAlphabet) {
    const std::string code = paper_code("0123456789abcdef0123456789abcdef");
    ASSERT_EQ(code.size(), 9u);
    EXPECT_EQ(code[4], '-');
    for (const char c : code)
        EXPECT_TRUE(c == '-' || kCodeAlphabet.find(c) != std::string_view::npos) << code;
}

TEST(PaperCode, TheAlphabetHasNoLookAlikesAndAPrimeNumberOfCharacters) {
    EXPECT_EQ(kCodeAlphabet.size(), 23u);
    EXPECT_EQ(kCodeAlphabet.find_first_of("0OQ1ILU2Z5S8B"), std::string_view::npos);
    EXPECT_EQ(std::set<char>(kCodeAlphabet.begin(), kCodeAlphabet.end()).size(), kCodeAlphabet.size());
}

TEST(PaperCode, IsTheSameForTheSameVersionAndRarelyForAnother) {
    std::set<std::string> codes;
    for (int i = 0; i < 5000; ++i) codes.insert(paper_code("event-" + std::to_string(i)));
    EXPECT_GE(codes.size(), 4999u);
    EXPECT_EQ(paper_code("event-7"), paper_code("event-7"));
}

TEST(PaperCode, IsReadHoweverItIsTyped) {
    const std::string code = paper_code("a");
    std::string typed;
    for (const char c : code)
        if (c != '-') typed += static_cast<char>(std::tolower(c));
    EXPECT_EQ(read_paper_code(typed), code);
    EXPECT_EQ(read_paper_code(" " + code + " "), code);
    EXPECT_EQ(read_paper_code(""), "");
    EXPECT_EQ(read_paper_code(code + code), "");
}

TEST(PaperCode, NoticesEveryWrongCharacterAndEverySwap) {
    for (int i = 0; i < 50; ++i) {
        const std::string code = paper_code("version " + std::to_string(i));
        for (std::size_t at = 0; at < code.size(); ++at) {
            if (code[at] == '-') continue;
            for (const char c : kCodeAlphabet) {
                std::string wrong = code;
                wrong[at] = c;
                EXPECT_EQ(read_paper_code(wrong), c == code[at] ? code : "");
            }
            for (std::size_t other = at + 1; other < code.size(); ++other) {
                std::string swapped = code;
                std::swap(swapped[at], swapped[other]);
                if (code[other] == '-' || code[at] == code[other]) continue;
                EXPECT_EQ(read_paper_code(swapped), "");
            }
        }
    }
}

}  // namespace
}  // namespace evenfall::papers
