// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <iterator>

#include <gtest/gtest.h>

#include "papers/paper_flow.h"

namespace evenfall::ui {
namespace {

std::shared_ptr<Atom> atom(double height, Glue glue = Glue::none) {
    auto made = std::make_shared<Atom>();
    made->height = height;
    made->glue = glue;
    made->paint = [](QPainter&, const QPointF&) {};
    return made;
}

std::vector<std::size_t> counts(const Atoms& atoms, double height) {
    const auto pages = flow(atoms, height);
    std::vector<std::size_t> sizes;
    if (pages)
        for (const PaperPage& page : *pages) sizes.push_back(page.size());
    return sizes;
}

using Sizes = std::vector<std::size_t>;

TEST(Flow, FillsPagesInOrder) {
    EXPECT_EQ(counts({atom(40), atom(40), atom(40)}, 100), (Sizes{2, 1}));
}

TEST(Flow, KeepsAStepWholeWhereItFitsOnAPage) {
    EXPECT_EQ(counts({atom(50), atom(30, Glue::soft), atom(30, Glue::soft), atom(30)}, 100), (Sizes{1, 3}));
}

TEST(Flow, BreaksAStepThatIsLongerThanAPageBetweenItsRows) {
    EXPECT_EQ(counts({atom(20, Glue::hard), atom(40, Glue::soft), atom(40, Glue::soft), atom(40)}, 100),
              (Sizes{3, 1}));
}

/// So many rows of ten points under a head of twenty; the last ends the chain.
Atoms rows_of(std::size_t count) {
    Atoms atoms{atom(20, Glue::hard)};
    for (std::size_t i = 0; i < count; ++i) {
        auto row = atom(10, i + 1 < count ? Glue::soft : Glue::none);
        row->row = true;
        row->repeated = {atom(20)};
        atoms.push_back(row);
    }
    return atoms;
}

TEST(Flow, EndsAPartedStepWithThreeOfItsRowsAtLeast) {
    EXPECT_EQ(counts(rows_of(8), 100), (Sizes{9})) << "it fits";
    EXPECT_EQ(counts(rows_of(9), 100), (Sizes{7, 4})) << "one row would stand alone";
    EXPECT_EQ(counts(rows_of(10), 100), (Sizes{8, 4})) << "two rows would";
    EXPECT_EQ(counts(rows_of(11), 100), (Sizes{9, 4}));
    EXPECT_EQ(counts(rows_of(17), 100), (Sizes{9, 7, 4})) << "its last page only";
}

TEST(Flow, RepeatsTheHeadsWhereAPageBeginsInATable) {
    const auto head = atom(20);
    auto row = atom(50);
    row->repeated = {head};
    const auto pages = flow({atom(60), row}, 100);
    ASSERT_TRUE(pages.has_value());
    ASSERT_EQ(pages->size(), 2u);
    EXPECT_EQ((*pages)[1][0].atom, head);
    EXPECT_EQ((*pages)[1][1].top, 20);
}

TEST(Flow, NeverLeavesAHeadingAlone) {
    EXPECT_EQ(counts({atom(80), atom(15, Glue::hard), atom(50)}, 100), (Sizes{1, 2}));
}

TEST(Flow, RefusesWhatIsHigherThanAPage) {
    EXPECT_FALSE(flow({atom(101)}, 100).has_value());
}

std::vector<std::size_t> even_counts(const Atoms& atoms, double height) {
    const auto pages = flow_evenly(atoms, height);
    std::vector<std::size_t> sizes;
    if (pages)
        for (const PaperPage& page : *pages) sizes.push_back(page.size());
    return sizes;
}

TEST(Flow, FillsPagesEvenlyWhereTheLastWouldBeNearlyEmpty) {
    Atoms atoms;
    for (int i = 0; i < 11; ++i) atoms.push_back(atom(10));
    EXPECT_EQ(counts(atoms, 100), (Sizes{10, 1}));
    EXPECT_EQ(even_counts(atoms, 100), (Sizes{6, 5}));
    for (int i = 0; i < 5; ++i) atoms.push_back(atom(10));
    EXPECT_EQ(even_counts(atoms, 100), (Sizes{10, 6}));
}

TEST(Flow, EvensOutPartByPartAndBreaksNoStepForIt) {
    Atoms atoms{atom(90)};
    for (int i = 0; i < 2; ++i) atoms.push_back(atom(10));
    auto next = atom(60, Glue::soft);
    next->begins_page = true;
    atoms.push_back(next);
    atoms.push_back(atom(30));
    atoms.push_back(atom(20));
    EXPECT_EQ(even_counts(atoms, 100), (Sizes{1, 2, 2, 1}));
}

std::shared_ptr<Atom> row(double height, Glue glue = Glue::none) {
    auto made = atom(height, glue);
    made->row = true;
    return made;
}

TEST(Flow, RowsBeginOnAPageThatHasNone) {
    const auto rows = [](double intro, double head) {
        return Atoms{atom(intro), atom(head, Glue::hard), row(25, Glue::soft), row(25, Glue::soft), row(25)};
    };
    EXPECT_EQ(counts(rows(60, 10), 100), (Sizes{3, 2}));
    EXPECT_EQ(counts(rows(60, 20), 100), (Sizes{1, 4})) << "not where none fits";
    Atoms steps = rows(5, 10);
    std::ranges::move(rows(5, 10), std::back_inserter(steps));
    EXPECT_EQ(counts(steps, 140), (Sizes{6, 4})) << "a page that has one leaves the next step whole";
}

TEST(Flow, CountsThePagesWithoutARowInThePartsThatHaveRows) {
    auto part = atom(60);
    part->begins_page = true;
    const auto pages = flow({atom(60), atom(60), part, atom(20, Glue::hard), row(30), row(30)}, 100);
    ASSERT_TRUE(pages.has_value());
    EXPECT_EQ(pages->size(), 4u);
    EXPECT_EQ(pages_without_row(*pages), 1u);
}

}  // namespace
}  // namespace evenfall::ui
