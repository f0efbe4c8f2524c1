// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "papers/papers.h"
#include "papers/sample.h"

// What papers say where the plan does not simply run on: a hold that begins later, that is past its review or
// began before the first step; a dose time that falls away; nothing taken any more.

namespace evenfall::papers {
namespace {

bool has(const std::string& all, const std::string& words) {
    return all.find(words) != std::string::npos;
}

std::string why_not(Paper paper, const PaperSource& source) {
    const auto document = make_paper(paper, source, shipped_texts("en"));
    return document ? std::string() : document.faults().front().id;
}

PaperSource held(Day as_of, Day from, Day review_on) {
    PaperSource source = two_steps();
    source.as_of = as_of;
    source.hold = HoldStarted{from, review_on, "a hard week"};
    source.supply = some_supply(source);
    return source;
}

TEST(HeldPaper, ThatWillBeHeldSaysFromWhen) {
    const PaperSource source = held(day_at(2027, 1, 5), day_at(2027, 1, 13), day_at(2027, 1, 27));
    EXPECT_TRUE(has(text_of(Paper::schedule, source),
                    "From Wednesday 13 January 2027 your dose stays as it is then. We look at it again on "
                    "Wednesday 27 January 2027."));
    EXPECT_FALSE(has(text_of(Paper::schedule, source), "for now"));
    EXPECT_TRUE(
        has(text_of(Paper::pharmacy, source), "From Wednesday 13 January 2027 the dose stays the same."));
    for (const Paper paper : {Paper::letter, Paper::call})
        EXPECT_TRUE(has(text_of(paper, source), "Held from 13 Jan 2027: the dose stays as it is then"));
}

TEST(HeldPaper, PastItsReviewIsRefusedAndTellsTheTeamThatItIsDue) {
    const PaperSource source = held(day_at(2027, 2, 3), day_at(2027, 1, 13), day_at(2027, 1, 27));
    for (const Paper paper : {Paper::schedule, Paper::pharmacy})
        EXPECT_EQ(why_not(paper, source), "paper-review-due");
    for (const Paper paper : {Paper::letter, Paper::call})
        EXPECT_TRUE(has(text_of(paper, source), "Its review was due on 27 Jan 2027."));
    // Step 2 was kept back: nothing was agreed until its last day, and its dose was never taken.
    const std::string letter = text_of(Paper::letter, source);
    EXPECT_FALSE(has(letter, "31 January")) << letter;
    EXPECT_TRUE(has(letter, "clonazepam 2.375 mg a day"));
    const Document drawn = make_paper(Paper::letter, source, shipped_texts("en")).value();
    for (const Block& block : drawn.blocks)
        if (const auto* chart = std::get_if<DoseChart>(&block.content))
            for (const DoseChart::Stair& stair : chart->stairs) {
                EXPECT_TRUE(stair.agreed || stair.from > source.as_of);
            }
}

TEST(HeldPaper, BeforeTheFirstStepHasNoStepOfNumberNought) {
    PaperSource source = held(day_at(2027, 1, 4), day_at(2027, 1, 2), day_at(2027, 1, 20));
    Step before = source.plan->steps.front();
    before.number = 0;
    before.starts = day_at(2027, 1, 1);
    before.days = 1;
    source.plan->steps.insert(source.plan->steps.begin(), before);
    for (const char* language : {"en", "es"}) {
        const std::string sheet = text_of(Paper::schedule, source, language);
        EXPECT_FALSE(has(sheet, "Step 0") || has(sheet, "aso 0")) << sheet;
        EXPECT_FALSE(has(sheet, "1 January") || has(sheet, "1 de enero")) << "the step's made-up first day";
    }
    EXPECT_TRUE(has(text_of(Paper::schedule, source),
                    "Before step 1: the same dose until Wednesday 20 January 2027"));
    EXPECT_TRUE(has(text_of(Paper::letter, source), "Until Wednesday 20 January 2027, as before the plan:"));
}

PaperSource off_since(Day as_of) {
    PaperSource source = down_to_off();
    source.as_of = as_of;
    source.supply = some_supply(source);
    return source;
}

TEST(OffPaper, HasNoScheduleAndNothingToDispense) {
    const PaperSource source = off_since(day_at(2027, 1, 20));
    for (const Paper paper : {Paper::schedule, Paper::pharmacy})
        EXPECT_EQ(why_not(paper, source), "paper-off");
    EXPECT_FALSE(has(text_of(Paper::card, source), "My dose changes"));
    EXPECT_FALSE(has(text_of(Paper::letter, source), "Agreed until"));
}

TEST(OffPaper, AgreesUntilTheLastDayThatTakesADose) {
    const PaperSource source = off_since(day_at(2027, 1, 5));
    EXPECT_EQ(valid_through(source), day_at(2027, 1, 17));
    EXPECT_TRUE(has(text_of(Paper::letter, source), "Agreed until\nSunday 17 January 2027"));
}

TEST(SheetBeforeItsFirstStep, DoesNotDenyTheDosesThatAreTakenUntilThen) {
    PaperSource source = two_steps();
    source.plan->start.doses.push_back({{14 * 60}, "clonazepam", Dose::micrograms(250), {}, {}});
    const std::string sheet = text_of(Paper::schedule, source);
    EXPECT_TRUE(has(sheet, "Afternoon 14:00: clonazepam 0.25 mg"));
    EXPECT_TRUE(has(sheet, "Dose times from Monday 4 January 2027: Morning 08:00, Bedtime 21:00. At any"));
    EXPECT_FALSE(has(sheet, "Dose times:"));
    EXPECT_TRUE(has(text_of(Paper::diary, source), "14:00")) << "the diary begins today";
    source.as_of = day_at(2027, 1, 4);
    EXPECT_TRUE(has(text_of(Paper::schedule, source), "Dose times: Morning 08:00, Bedtime 21:00."));
    EXPECT_FALSE(has(text_of(Paper::diary, source), "14:00"));
}

TEST(CrossoverLetter, DrawsBothAgentsEachOnAScaleWithAmounts) {
    const Document letter = make_paper(Paper::letter, crossing_over(), shipped_texts("en")).value();
    std::vector<std::string> titles;
    for (const Block& block : letter.blocks)
        if (const auto* chart = std::get_if<DoseChart>(&block.content)) {
            titles.push_back(chart->title.substr(0, chart->title.find(':')));
            EXPECT_FALSE(chart->amounts.empty()) << chart->title;
            EXPECT_FALSE(chart->off.empty()) << "one begins at none, the other ends there";
        }
    EXPECT_EQ(titles, (std::vector<std::string>{"Alprazolam", "Diazepam"}));
}

}  // namespace
}  // namespace evenfall::papers
