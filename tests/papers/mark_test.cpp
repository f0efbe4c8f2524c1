// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/mark.h"

#include <stdexcept>

#include <gtest/gtest.h>

#include "papers/code.h"

namespace evenfall::papers {
namespace {

const std::string kPlan = "0123456789abcdef0123456789abcdef";

TEST(PaperMark, SaysTheCodeAndTheSignedPlanAndIsReadBack) {
    const MarkText says{paper_code(kPlan), kPlan};
    const std::string text = write_mark(says);
    EXPECT_EQ(text, "EVENFALL:1:" + says.code + ":0123456789ABCDEF0123456789ABCDEF");
    EXPECT_EQ(read_mark(text), says);
    EXPECT_EQ(read_mark("  " + text + "\r\n"), says);
}

TEST(PaperMark, UsesOnlyTheCharactersThatAreHeldMostDensely) {
    // ISO/IEC 18004, alphanumeric mode: digits, capitals, space and $ % * + - . / :
    EXPECT_EQ(write_mark({paper_code(kPlan), kPlan})
                  .find_first_not_of("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"),
              std::string::npos);
}

TEST(PaperMark, ReadsACodeThatWasTyped) {
    const std::string code = paper_code(kPlan);
    EXPECT_EQ(read_mark(code), (MarkText{code, {}}));
    EXPECT_EQ(read_mark(code.substr(0, 4) + code.substr(5)), (MarkText{code, {}}));
}

TEST(PaperMark, RefusesEverythingElse) {
    const std::string text = write_mark({paper_code(kPlan), kPlan});
    for (const std::string& other :
         {std::string(), std::string("EVENFALL:1:"), text.substr(0, text.size() - 1), text + "0",
          std::string("EVENFALL:2") + text.substr(10), std::string("HTTPS://EXAMPLE.ORG"),
          std::string(10'000, 'A')})
        EXPECT_EQ(read_mark(other), std::nullopt) << other.substr(0, 80);
    std::string wrong_code = text;
    wrong_code[11] = wrong_code[11] == '3' ? '4' : '3';
    EXPECT_EQ(read_mark(wrong_code), std::nullopt);
    std::string wrong_plan = text;
    wrong_plan.back() = 'G';
    EXPECT_EQ(read_mark(wrong_plan), std::nullopt);
}

TEST(PaperMark, IsASquareWithThreeFinders) {
    const Mark mark = mark_of(write_mark({paper_code(kPlan), kPlan}));
    EXPECT_EQ(mark.size, 29);  // version 3 holds 61 such characters at level M
    ASSERT_EQ(mark.modules.size(), 29u * 29u);
    const auto dark = [&](int row, int column) {
        return mark.modules[static_cast<std::size_t>(row * mark.size + column)];
    };
    for (const auto& [row, column] : {std::pair{0, 0}, {0, 22}, {22, 0}}) {
        for (int i = 0; i < 7; ++i) EXPECT_TRUE(dark(row, column + i) && dark(row + i, column));
        EXPECT_FALSE(dark(row + 1, column + 1));
        EXPECT_TRUE(dark(row + 3, column + 3));
    }
}

TEST(PaperMark, RefusesATextThatNoSymbolHolds) {
    EXPECT_THROW(mark_of(std::string(10'000, 'A')), std::length_error);
}

}  // namespace
}  // namespace evenfall::papers
