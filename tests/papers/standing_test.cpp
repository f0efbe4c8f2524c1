// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/standing.h"

#include <gtest/gtest.h>

#include "papers/sample.h"

namespace evenfall::papers {
namespace {

const Zone kZone = Zone::named("UTC", "").value();

Stamp stamp_at(Day day, std::int64_t clock) {
    Stamp stamp;
    stamp.clock = clock;
    stamp.at = kZone.to_instant(at_clock(day, ClockTime{9 * 60})).instant;
    return stamp;
}

std::string plan_id(char digit) {
    return std::string(32, digit);
}

void commit(PatientRecord& record, char digit, Day on) {
    record.plans.push_back({plan_id(digit),
                            stamp_at(on, static_cast<std::int64_t>(record.plans.size() * 10 + 10)),
                            PlanCommitted{*two_steps().plan, {}, {}}});
}

std::string code_of_plan(char digit) {
    return code_of_version(plan_id(digit), std::nullopt);
}

PatientRecord one_plan() {
    PatientRecord record;
    commit(record, 'a', day_at(2027, 1, 2));
    return record;
}

PaperStanding told(const PatientRecord& record, const std::string& code) {
    return standing_of(record, {code, {}}, kZone);
}

TEST(PaperStanding, OfTheLastSignedVersionIsCurrent) {
    const PaperStanding standing = told(one_plan(), code_of_plan('a'));
    EXPECT_EQ(standing.state, PaperState::current);
    EXPECT_EQ(standing.current_code, code_of_plan('a'));
    EXPECT_EQ(standing.since, std::nullopt);
}

TEST(PaperStanding, IsReplacedFromTheDayOfTheNextSignature) {
    PatientRecord record = one_plan();
    commit(record, 'b', day_at(2027, 2, 3));
    commit(record, 'c', day_at(2027, 2, 20));
    const PaperStanding old = told(record, code_of_plan('a'));
    EXPECT_EQ(old.state, PaperState::replaced);
    EXPECT_EQ(old.since, day_at(2027, 2, 3));
    EXPECT_EQ(old.current_code, code_of_plan('c'));
    EXPECT_EQ(told(record, code_of_plan('c')).state, PaperState::current);
}

/// A paper tells of days to come: once a hold from tomorrow is written, today's sheet is an old one.
TEST(PaperStanding, IsReplacedByAHoldAsSoonAsItIsWritten) {
    PatientRecord record = one_plan();
    const Day from = day_at(2027, 1, 20);
    const HoldStarted hold{from, day_at(2027, 2, 3), "hard weeks"};
    record.holds.push_back({"hold", stamp_at(day_at(2027, 1, 19), 15), hold});
    const PaperStanding old = told(record, code_of_plan('a'));
    EXPECT_EQ(old.state, PaperState::replaced);
    EXPECT_EQ(old.since, day_at(2027, 1, 19));
    EXPECT_EQ(old.current_code, code_of_version(plan_id('a'), hold));
    EXPECT_EQ(told(record, old.current_code).state, PaperState::current);
}

/// The sheet names the review: a hold that goes on for longer is another paper, also from the same day.
TEST(PaperStanding, IsReplacedByALongerHold) {
    PatientRecord record = one_plan();
    const HoldStarted first{day_at(2027, 1, 20), day_at(2027, 2, 3), "hard weeks"};
    const HoldStarted longer{day_at(2027, 2, 3), day_at(2027, 2, 17), "still hard"};
    record.holds.push_back({"hold", stamp_at(day_at(2027, 1, 20), 15), first});
    record.holds.push_back({"longer", stamp_at(day_at(2027, 2, 3), 25), longer});
    const PaperStanding old = told(record, code_of_version(plan_id('a'), first));
    EXPECT_EQ(old.state, PaperState::replaced);
    EXPECT_EQ(old.since, day_at(2027, 2, 3));
    const HoldStarted both{first.from, longer.review_on, longer.reason};
    EXPECT_EQ(old.current_code, code_of_version(plan_id('a'), both));
    EXPECT_EQ(told(record, old.current_code).state, PaperState::current);
}

TEST(PaperStanding, OfAnEndedPlanHoldsNoMore) {
    PatientRecord record = one_plan();
    record.plan_ended = {"end", stamp_at(day_at(2027, 2, 5), 90), PlanEnded{}};
    const PaperStanding standing = told(record, code_of_plan('a'));
    EXPECT_EQ(standing.state, PaperState::ended);
    EXPECT_EQ(standing.since, day_at(2027, 2, 5));
    EXPECT_EQ(standing.current_code, "");
}

TEST(PaperStanding, OfACodeThatNoVersionHasIsUnknown) {
    EXPECT_EQ(told(one_plan(), code_of_plan('f')).state, PaperState::unknown);
    EXPECT_EQ(told(PatientRecord{}, code_of_plan('a')).state, PaperState::unknown);
    // A mark whose code is ours and whose plan is not.
    EXPECT_EQ(standing_of(one_plan(), {code_of_plan('a'), plan_id('f')}, kZone).state, PaperState::unknown);
}

TEST(PaperStanding, OfASignatureThatWasTakenBackIsReplaced) {
    PatientRecord record = one_plan();
    record.papers.push_back(
        {"paper", stamp_at(day_at(2027, 1, 3), 11),
         PaperIssued{"schedule", code_of_plan('f'), plan_id('f'), day_at(2027, 1, 3), {}}});
    const PaperStanding standing = told(record, code_of_plan('f'));
    EXPECT_EQ(standing.state, PaperState::replaced);
    EXPECT_EQ(standing.went_out, day_at(2027, 1, 3));
    const auto issued = issued_papers(record, kZone);
    ASSERT_EQ(issued.size(), 1u);
    EXPECT_EQ(issued.front().standing, standing);
}

TEST(PaperStanding, IsSaidInEveryLanguageWithoutAGap) {
    PatientRecord record = one_plan();
    commit(record, 'b', day_at(2027, 2, 3));
    for (const char* language : {"en", "es"})
        for (const char digit : {'a', 'b', 'f'}) {
            const std::string words =
                standing_in_words(told(record, code_of_plan(digit)), Wording(shipped_texts(language), {}));
            EXPECT_EQ(words.find_first_of("[{"), std::string::npos) << words;
        }
    EXPECT_NE(standing_in_words(told(record, code_of_plan('a')), Wording(shipped_texts("en"), {}))
                  .find("Replaced on 3 Feb 2027. Version " + code_of_plan('b')),
              std::string::npos);
}

}  // namespace
}  // namespace evenfall::papers
