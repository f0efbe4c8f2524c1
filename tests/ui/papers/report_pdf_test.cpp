// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "papers/paper_painter.h"
#include "papers/sample.h"

namespace evenfall::ui {
namespace {

constexpr int kDiaries = 40;

/// How many of the reports of invented diaries take more than one page.
int longer_than_a_page(const papers::PaperSource& person, const std::string& language, PaperSize size) {
    int longer = 0;
    for (int seed = 1; seed <= kDiaries; ++seed) {
        papers::PaperSource source = person;
        source.made_by = "Dr Kim Sample";
        source.judged = papers::some_check(source, static_cast<std::uint64_t>(seed));
        const auto document =
            papers::make_paper(Paper::report, source, papers::shipped_texts(language)).value();
        longer += PaperPainter::set(document, {size, false}).value().page_count() > 1;
    }
    return longer;
}

TEST(ReportPaper, StaysOnOnePageInBothLanguagesAndSizes) {
    for (const char* language : {"en", "es"})
        for (const PaperSize size : {PaperSize::a4, PaperSize::letter}) {
            EXPECT_EQ(longer_than_a_page(papers::person_without_plan(), language, size), 0) << language;
            EXPECT_EQ(longer_than_a_page(papers::every_risk(), language, size), 0) << language;
            EXPECT_EQ(longer_than_a_page(papers::two_agents(), language, size), 0) << language;
        }
}

}  // namespace
}  // namespace evenfall::ui
