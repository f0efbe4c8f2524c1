// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "papers/sample.h"

// What the tests of the schedule look at.

namespace evenfall::papers {

inline std::string words_of(const Cell& cell) {
    std::string words;
    for (const DoseInCell& dose : cell.doses)
        for (const std::string& line : dose.lines) words += (words.empty() ? "" : " ") + line;
    return words;
}

inline const Table& day_table_of(const Document& document) {
    for (const Block& block : document.blocks)
        if (const auto* table = std::get_if<Table>(&block.content))
            if (table->columns.front().title == "Day") return *table;
    throw std::logic_error("no table");
}

inline Document schedule_of(const PaperSource& source, const std::string& language = "en") {
    auto document = make_paper(Paper::schedule, source, shipped_texts(language));
    EXPECT_TRUE(document.ok()) << document.faults().front().id;
    return std::move(document).value();
}

inline const Table& step_table_of(const Document& document) {
    for (const Block& block : document.blocks)
        if (const auto* table = std::get_if<Table>(&block.content))
            if (table->columns.front().title == "Step") return *table;
    throw std::logic_error("no table");
}
}  // namespace evenfall::papers
