// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <regex>

#include <gtest/gtest.h>

#include "papers/sample.h"

// What the standard for patient-centred labels asks (USP General Chapter <17>, points from memory): dose and
// time apart, explicit parts of the day instead of intervals, numerals instead of number words, sentence
// case, one instruction a line. Parts of a tablet stay words: a fraction with a slash is on the error-prone
// lists.

namespace evenfall::papers {
namespace {

std::vector<PaperSource> people() {
    return {two_steps(), every_risk(), two_agents(), crossing_over(), from_a_bottle(), down_to_off()};
}

template <class Check>
void for_each_schedule(const Check& check) {
    for (const PaperSource& source : people())
        for (const std::string& language : languages(resources_folder()))
            check(make_paper(Paper::schedule, source, shipped_texts(language)).value());
}

TEST(Label, EveryDoseTimeIsAPartOfTheDayWithItsClockTime) {
    static const std::regex clock(R"(\d\d:\d\d)");
    for_each_schedule([](const Document& document) {
        for (const Block& block : document.blocks) {
            const auto* table = std::get_if<Table>(&block.content);
            if (!table) continue;
            for (std::size_t i = 1; i < table->columns.size(); ++i) {
                const Column& column = table->columns[i];
                const bool doses = std::ranges::any_of(table->groups, [&](const Group& group) {
                    return std::ranges::any_of(group.rows,
                                               [&](const Row& row) { return !row[i].doses.empty(); });
                });
                if (!doses) continue;
                EXPECT_FALSE(column.title.empty());
                EXPECT_TRUE(std::regex_match(column.note, clock)) << column.note;
            }
        }
    });
}

TEST(Label, NeverSaysAnIntervalOrANumberOfTimes) {
    static const std::regex interval(
        R"(\b(twice|daily|hourly|every \d+ hours|times a day|veces al día|cada \d+ horas)\b)",
        std::regex::icase);
    for_each_schedule([](const Document& document) {
        for_each_text(document, [](Role, const std::string& text) {
            EXPECT_FALSE(std::regex_search(text, interval)) << text;
        });
    });
}

TEST(Label, WritesAmountsInNumerals) {
    static const std::regex words(
        R"(\b(two|three|four|five|six|seven|eight|nine|ten|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez)\b)",
        std::regex::icase);
    for_each_schedule([](const Document& document) {
        for_each_text(document, [](Role, const std::string& text) {
            EXPECT_FALSE(std::regex_search(text, words)) << text;
        });
    });
}

TEST(Label, ShoutsNothingInCapitals) {
    static const std::regex capitals(R"(\b[A-Z]{4,}\b)");
    static const std::regex code(R"([0-9A-Z]{4}-[0-9A-Z]{4}|LIC-\d+)");
    for_each_schedule([](const Document& document) {
        for_each_text(document, [](Role, const std::string& text) {
            EXPECT_FALSE(std::regex_search(std::regex_replace(text, code, ""), capitals)) << text;
        });
    });
}

TEST(Label, GivesOneInstructionALine) {
    static const std::regex amount(R"(\d (mg|mL)\b)");
    const auto at_most_one_amount = [](const std::string& line) {
        const auto count = std::distance(std::sregex_iterator(line.begin(), line.end(), amount), {});
        EXPECT_LE(count, 1) << line;
        EXPECT_LE(std::ranges::count_if(line, [](char c) { return c == '.' || c == '?'; }), 3) << line;
    };
    for_each_schedule([&](const Document& document) {
        for (const Block& block : document.blocks) {
            if (const auto* list = std::get_if<List>(&block.content))
                std::ranges::for_each(list->items, at_most_one_amount);
            if (const auto* sides = std::get_if<Sides>(&block.content))
                for (const Side& side : sides->sides) std::ranges::for_each(side.items, at_most_one_amount);
            if (const auto* notice = std::get_if<Notice>(&block.content))
                std::ranges::for_each(notice->lines, at_most_one_amount);
        }
    });
}

}  // namespace
}  // namespace evenfall::papers
