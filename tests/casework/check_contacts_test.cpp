// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/check_contacts.h"

#include <gtest/gtest.h>

#include "casework/checks.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kToday = day_at(2026, 12, 20);
const LocalTime kNow = at_clock(kToday, {9 * 60});

class ContactChecks : public testing::Test {
  protected:
    std::vector<std::string> ids(const Change& change) const {
        std::vector<std::string> found;
        for (const Fault& fault : check_change(change, formulary_, kToday)) found.push_back(fault.id);
        for (const Fault& fault : check_against_record(change, record_, rules_, kToday))
            found.push_back(fault.id);
        return found;
    }
    using Ids = std::vector<std::string>;

    Formulary formulary_ = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules_ = Rules::load(resources_folder() / "rules.json").value();
    PatientRecord record_;
};

TEST_F(ContactChecks, ACallIsNeverDatedTomorrow) {
    EXPECT_EQ(ids(CheckIn{kNow + days(1), {}, ""}), Ids{"day-in-future"});
    EXPECT_EQ(ids(CheckIn{kNow, {}, ""}), Ids{});
    EXPECT_EQ(ids(ContactAttempted{kNow + days(1), "", ""}), Ids{"day-in-future"});
}

TEST_F(ContactChecks, ACallIsNotDatedBeforeAnythingIsKnown) {
    RegimenRecorded recorded;
    recorded.regimen.from = kToday - days(10);
    record_.regimens.push_back({"e1", {}, recorded});
    EXPECT_EQ(ids(CheckIn{kNow - days(11), {}, ""}), Ids{"check-in-before-record"});
    EXPECT_EQ(ids(CheckIn{kNow - days(10), {}, ""}), Ids{});
}

TEST_F(ContactChecks, APastedNovelIsRefusedAndSaysHowLongIsAllowed) {
    EXPECT_EQ(ids(CheckIn{kNow, {}, std::string(10'000, 'x')}), Ids{"text-too-long"});
    EXPECT_EQ(ids(CheckIn{kNow, {{"work", std::string(10'000, 'x')}}, ""}), Ids{"text-too-long"});
    CheckIn many{kNow, {}, ""};
    for (int i = 0; i < 500; ++i) many.answers.emplace_back("q" + std::to_string(i), "no");
    EXPECT_EQ(ids(many), Ids{"check-in-too-many"});
}

TEST_F(ContactChecks, NobodyIsToldWithoutANameAndAnAnswer) {
    record_.lines.push_back({"c1", {}, "check-in-recorded", Standing::counts, {}});
    EXPECT_EQ(ids(DangerTold{"c1", kNow, "Dr A.", "", "comes"}), Ids{});
    EXPECT_EQ(ids(DangerTold{"c1", kNow, "", "", ""}), (Ids{"told-nobody", "told-without-answer"}));
    EXPECT_EQ(ids(DangerTold{"c2", kNow, "Dr A.", "", "comes"}), Ids{"entry-unknown"});
    EXPECT_EQ(ids(DangerTold{"", kNow, "Dr A.", "", "comes"}), Ids{"danger-unnamed"});
}

TEST_F(ContactChecks, ADangerIsNeverPutOff) {
    EXPECT_EQ(ids(ReasonSnoozed{"red-flag-seizure", kToday + days(1), "later"}), Ids{"snooze-danger"});
    EXPECT_EQ(ids(ReasonSnoozed{"phq-9-item-9", kToday + days(1), "later"}), Ids{"snooze-danger"});
    EXPECT_EQ(ids(ReasonSnoozed{"supply-ends-tomorrow", kToday + days(1), "later"}), Ids{"snooze-danger"});
    EXPECT_EQ(ids(ReasonSnoozed{"step-due-soon", kToday + days(1), "away"}), Ids{});
}

TEST_F(ContactChecks, PuttingOffNeedsAReasonAndADayThatIsNotFar) {
    EXPECT_EQ(ids(ReasonSnoozed{"step-due-soon", kToday, ""}), (Ids{"reason-missing", "snooze-not-ahead"}));
    EXPECT_EQ(ids(ReasonSnoozed{"step-due-soon", kToday + days(29), "away"}), Ids{"snooze-too-long"});
}

TEST_F(ContactChecks, ADrugTestGoesInOrder) {
    DrugTestNoted test;
    EXPECT_EQ(ids(test), Ids{"test-empty"});
    test.explained_on = kToday;
    test.ordered_on = kToday - days(1);
    EXPECT_EQ(ids(test), Ids{"days-out-of-order"});
    test.ordered_on = kToday;
    test.result = "negative";
    EXPECT_EQ(ids(test), Ids{"test-result-undated"});
    test.result_on = kToday;
    EXPECT_EQ(ids(test), Ids{});
    test.continues = "t1";
    EXPECT_EQ(ids(test), Ids{"entry-unknown"});
}

TEST_F(ContactChecks, CountsAreNeverNegativeAndNeverEmpty) {
    EXPECT_EQ(ids(SupplyCounted{kToday, {}}), Ids{"counted-nothing"});
    const OnHand less{{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::whole, {}}, -1, {}};
    EXPECT_EQ(ids(TabletsReturned{kToday, {less}, ""}), Ids{"count-negative"});
}

TEST_F(ContactChecks, LifeAheadIsAllowedButNotFar) {
    EXPECT_EQ(ids(LifeEvent{LifeKind::surgery, kToday + days(30), {}, ""}), Ids{});
    EXPECT_EQ(ids(LifeEvent{LifeKind::travel, kToday + days(400), {}, ""}), Ids{"day-too-far"});
    EXPECT_EQ(ids(LifeEvent{LifeKind::travel, kToday, kToday - days(1), ""}), Ids{"days-out-of-order"});
}

}  // namespace
}  // namespace evenfall
