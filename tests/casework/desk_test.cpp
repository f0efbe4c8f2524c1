// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/desk.h"

#include <gtest/gtest.h>

#include "casework/in_force.h"
#include "casework/supply_left.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kToday = day_at(2026, 12, 20);
const LocalTime kNow = at_clock(kToday, {9 * 60});

Product tablet() {
    return {"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
}

/// A desk over a log in memory, with one person.
class DeskTest : public testing::Test {
  protected:
    void SetUp() override { sit_down(Role::prescriber); }

    void sit_down(Role role) {
        const auto resources = resources_folder();
        auto formulary = load_formulary(resources / "formulary.json");
        auto rules = Rules::load(resources / "rules.json");
        ASSERT_TRUE(formulary && rules);
        auto log = log_in_memory("user", [] { return Instant(std::chrono::seconds(1'800'000'000)); });
        auto desk = Desk::open(std::move(log), *formulary, *rules, {"user", "A. Prescriber", role, "L-1"});
        ASSERT_TRUE(desk);
        desk_ = std::make_unique<Desk>(std::move(*desk));
        Person person;
        person.reference = "p-1";
        person.name = "Anna Otter";
        person.born = day_at(1970, 1, 1);
        patient_ = desk_->add_person(person, kToday).value();
    }

    Result<Done> write(std::vector<Change> changes, std::vector<Override> overrides = {}) {
        return desk_->carry_out(patient_, std::move(changes), std::move(overrides), kNow);
    }

    void take_stock() {
        RegimenRecorded regimen;
        regimen.regimen = {kToday - days(100),
                           {{{{480}, "clonazepam", Dose::milligrams(1), "", ""},
                             {{1260}, "clonazepam", Dose::micrograms(1500), "", ""}}}};
        History history;
        history.treatment = "talking therapy";
        Baseline baseline;
        baseline.on = kToday;
        RiskScreen screen;
        for (const std::string& question : kRiskWords) screen.answers[question] = Answer::no;
        ASSERT_TRUE(write({screen}));
        ASSERT_TRUE(write({regimen, history, baseline,
                           Suitability{SuitabilityOutcome::outpatient_taper, {}, "steady, well supported"}}));
    }

    /// Two steps of two tablets' worth each, whole by construction.
    static Plan plan() {
        Plan plan;
        plan.request.drug = "clonazepam";
        plan.request.start = kToday + days(1);
        plan.products = {tablet()};
        for (int i = 0; i < 2; ++i) {
            Step step;
            step.number = i + 1;
            step.starts = kToday + days(1 + 14 * i);
            step.days = 14;
            step.status = i == 0 ? StepStatus::committed : StepStatus::outlook;
            step.daily = Dose::micrograms(2000 - 500 * i);
            step.doses = {{{480}, "clonazepam", step.daily, {{tablet(), Cut::whole, 4 - i, {}}}}};
            plan.steps.push_back(step);
        }
        return plan;
    }

    std::unique_ptr<Desk> desk_;
    PatientId patient_;
};

TEST_F(DeskTest, WhatIsWrittenIsFoundAgain) {
    take_stock();
    const Course course = desk_->course(patient_, kNow).value();
    EXPECT_EQ(course.drug, "clonazepam");
    EXPECT_EQ(course.daily_today, Dose::micrograms(2500));
    EXPECT_EQ(course.today->doses.size(), 2u);
}

TEST_F(DeskTest, APlanIsRefusedUntilEachRuleAgainstItIsAnsweredWithAReason) {
    const auto refused = write({PlanCommitted{plan(), {}, {}}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().size(), 3u);
    const std::vector<Override> answers = {{"plan-without-suitability", "urgent, seen today"},
                                           {"plan-without-baseline", "known for years"},
                                           {"plan-without-treatment", "none needed"}};
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}}, answers));
    EXPECT_EQ(desk_->record(patient_).value()->plans.back().value.overrides.size(), 3u);
}

TEST_F(DeskTest, ACutOverAnOpenRedFlagNeedsAReason) {
    take_stock();
    ASSERT_TRUE(write({CheckIn{kNow - days(1), {{"suicidal thoughts", "yes"}}, ""}}));
    const auto refused = write({PlanCommitted{plan(), {}, {}}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "red-flag-suicidal-thoughts");
}

/// Tolerance may be lost: after days without, the old plan is not signed on as if nothing had been.
TEST_F(DeskTest, ACutAfterDaysWithoutTheAgentNeedsAReason) {
    take_stock();
    IntakeNoted noted;
    noted.entries = {{at_clock(kToday - days(4), {480}), "clonazepam", Dose::milligrams(1), {}, ""}};
    noted.kept_empty = {kToday - days(3), kToday - days(2), kToday - days(1)};
    ASSERT_TRUE(write({noted}));
    const auto refused = write({PlanCommitted{plan(), {}, {}}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "missed-doses");
    IntakeNoted again;
    again.entries = {{at_clock(kToday, {60}), "clonazepam", Dose::milligrams(1), {}, ""}};
    ASSERT_TRUE(write({again}));
    EXPECT_TRUE(write({PlanCommitted{plan(), {}, {}}})) << "taken again since";
}

TEST_F(DeskTest, AnOutpatientTaperIsNotSignedOverQuestionsThatNobodyAsked) {
    const auto refused = write({Suitability{SuitabilityOutcome::outpatient_taper, {}, ""}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "screen-incomplete");
}

TEST_F(DeskTest, AnOverrideWithoutAReasonIsNone) {
    take_stock();
    EXPECT_FALSE(write({PlanEnded{}}));
    Plan cut = plan();
    cut.steps[0].flags.push_back({"cut-over-cap", {{"percent", "20"}, {"cap", "10"}}, {}});
    EXPECT_FALSE(write({PlanCommitted{cut, {}, {}}}, {{"cut-over-cap", ""}}));
    EXPECT_TRUE(write({PlanCommitted{cut, {}, {}}}, {{"cut-over-cap", "agreed with the person"}}));
}

TEST_F(DeskTest, ANurseMaySignNoPlanAndOverrideNoRule) {
    sit_down(Role::nurse);
    const auto refused = write(
        {PlanCommitted{plan(), {}, {}}},
        {{"plan-without-suitability", "x"}, {"plan-without-baseline", "x"}, {"plan-without-treatment", "x"}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().id, "role-may-not");
    EXPECT_TRUE(write({NoteAdded{"rang, no answer"}}));
}

TEST_F(DeskTest, APlanWhosePiecesDoNotAddUpCannotBeSigned) {
    take_stock();
    Plan wrong = plan();
    wrong.steps[0].doses[0].pieces[0].count = 3;
    const auto refused = write({PlanCommitted{wrong, {}, {}}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().id, "plan-pieces-differ");
}

TEST_F(DeskTest, AnOutlookNeverBeginsByItself) {
    take_stock();
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}}));
    const LocalTime late = kNow + days(20);
    const Course course = desk_->course(patient_, late).value();
    EXPECT_EQ(course.daily_today, Dose::micrograms(2000));
    EXPECT_EQ(course.stretches.back().from, day_of(late) + days(1));
    const auto reasons = reasons_for(*desk_->record(patient_).value(), course, desk_->ground(), late);
    EXPECT_EQ(reasons.front().flag.rule, "step-due-unsigned");
}

TEST_F(DeskTest, AHoldKeepsTheDoseUntilANewPlan) {
    take_stock();
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}}));
    ASSERT_TRUE(write({HoldStarted{kToday + days(5), kToday + days(19), "sleep is poor"}}));
    const Course course = desk_->course(patient_, kNow + days(30)).value();
    EXPECT_TRUE(course.on_hold);
    EXPECT_EQ(course.daily_today, Dose::micrograms(2000));
}

TEST_F(DeskTest, APlanThatWasReplacedBeforeItBeganNeverReturns) {
    take_stock();
    Plan first = plan();
    for (Step& step : first.steps) step.starts += days(7);
    ASSERT_TRUE(write({PlanCommitted{first, {}, {}}}));
    const EventId replaced = desk_->record(patient_).value()->plans.back().id;
    Plan second = plan();
    second.steps.resize(1);
    ASSERT_TRUE(write({PlanCommitted{second, replaced, {}}}));
    const Course course = desk_->course(patient_, kNow + days(40)).value();
    EXPECT_EQ(course.daily_today, Dose::micrograms(2000));
    EXPECT_EQ(course.stretches.size(), 2u);
}

TEST_F(DeskTest, AnEndedPlansLaterStepsNeverBegin) {
    take_stock();
    Plan both = plan();
    both.steps[1].status = StepStatus::committed;
    ASSERT_TRUE(write({PlanCommitted{both, {}, {}}}, {{"cut-over-cap", "agreed with the person"}}));
    ASSERT_TRUE(write({PlanEnded{kToday + days(5), "maintenance agreed"}}));
    const Course course = desk_->course(patient_, kNow + days(60)).value();
    EXPECT_EQ(course.daily_today, Dose::micrograms(2000));
}

TEST_F(DeskTest, TheCapIsHeldAgainstTheDosesWhateverFlagsAPlanBrings) {
    take_stock();
    Plan steep = plan();
    steep.start = {{{{480}, "clonazepam", Dose::micrograms(2500), "", ""}}};  // 2.5 to 2 mg: 20 %
    const auto refused = write({PlanCommitted{steep, {}, {}}});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "cut-over-cap");
}

TEST_F(DeskTest, GoingBackUpNeedsAReason) {
    take_stock();
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}}));
    RegimenRecorded up;
    up.regimen = {kToday + days(3), {{{{480}, "clonazepam", Dose::milligrams(3), "", ""}}}};
    const auto refused = write({up});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "going-back-up");
    EXPECT_TRUE(write({up}, {{"going-back-up", "seizure on the ward"}}));
    EXPECT_EQ(desk_->record(patient_).value()->overrides.size(), 1u);
}

TEST_F(DeskTest, AThousandFoldSlipAsksBack) {
    RegimenRecorded slip;
    slip.regimen = {kToday, {{{{480}, "clonazepam", Dose::milligrams(500), "", ""}}}};
    const auto refused = write({slip});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.faults().front().place, "unit-slip-likely");
}

TEST_F(DeskTest, SupplyIsCountedOnThroughTheSteps) {
    take_stock();
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}}));
    SupplyCounted counted{kToday + days(1), {{tablet(), 4 * 4 * 3, {}}}};  // 12 tablets, 4 a day
    ASSERT_TRUE(desk_->carry_out(patient_, {counted}, {}, kNow + days(1)));
    const Course course = desk_->course(patient_, kNow + days(1)).value();
    EXPECT_EQ(supply_runs_out(*desk_->record(patient_).value(), course), kToday + days(4));
}

/// A count made days ago is less by what was taken since, also of a regimen that names no pieces.
TEST_F(DeskTest, WhatWasCountedIsLessByWhatTheDaysTook) {
    take_stock();
    // 5 tablets a day (1 + 1.5 mg of 0.5 mg) until tomorrow, then 4.
    const SupplyCounted counted{kToday - days(3), {{tablet(), 4 * 60, {}}}};
    ASSERT_TRUE(write({PlanCommitted{plan(), {}, {}}, counted}));
    const PatientRecord& record = *desk_->record(patient_).value();
    const Course course = desk_->course(patient_, kNow).value();
    const PieceWeights weights = PieceWeights::from(desk_->rules());
    const auto left = [&](int later) {
        return on_hand_on(record, course, kToday + days(later), weights).front().quarters / 4;
    };
    EXPECT_EQ(left(-3), 60);
    EXPECT_EQ(left(0), 60 - 3 * 5);
    EXPECT_EQ(left(1), 60 - 4 * 5);
    EXPECT_EQ(left(3), 60 - 4 * 5 - 2 * 4);
    EXPECT_TRUE(on_hand_on(record, course, kToday + days(60), weights).empty()) << "never less than nothing";
}

TEST_F(DeskTest, HostileAndEmptyFieldsAreNamedAndNothingIsWritten) {
    Person person;
    person.name = "Anna\u202Eretto";
    person.born = kToday + days(1);
    const auto refused = write({person});
    ASSERT_FALSE(refused);
    std::vector<std::string> ids;
    for (const Fault& fault : refused.faults()) ids.push_back(fault.id);
    EXPECT_EQ(ids, (std::vector<std::string>{"person-no-reference", "text-control", "born-in-future"}));
    RegimenRecorded many;
    many.regimen.from = kToday;
    for (int i = 0; i < 25; ++i)
        many.regimen.regimen.doses.push_back({{i}, "clonazepam", Dose::milligrams(1), "", ""});
    EXPECT_EQ(write({many}).faults().front().id, "regimen-too-many");
}

TEST_F(DeskTest, AClinicWithoutANameIsToldInWordsAlone) {
    const auto written = desk_->carry_out({}, {Clinic{}}, {}, kNow);
    ASSERT_FALSE(written);
    const auto texts = Texts::load(resources_folder(), "en");
    ASSERT_TRUE(texts);
    const std::string told = texts->text(written.faults().front());
    EXPECT_TRUE(told.starts_with("The clinic's name is missing")) << told;
    EXPECT_NE(told.find("clinic's settings"), std::string::npos) << told;
}

TEST_F(DeskTest, ARedFlagStandsUntilALaterCallAnswersNo) {
    take_stock();
    ASSERT_TRUE(write({CheckIn{kNow - days(2), {{"suicidal thoughts", "yes"}}, ""}}));
    EXPECT_EQ(desk_->course(patient_, kNow).value().daily_today, Dose::micrograms(2500));
    Faults faults;
    EXPECT_EQ(desk_->caseload(kNow, faults).front().reasons.front().urgency, Urgency::red_flag);
    ASSERT_TRUE(write({CheckIn{kNow, {{"suicidal thoughts", "no"}}, ""}}));
    EXPECT_NE(desk_->caseload(kNow, faults).front().reasons.front().urgency, Urgency::red_flag);
}

TEST_F(DeskTest, TheGateSaysWhatItRestsOn) {
    RiskScreen screen;
    screen.answers = {{"withdrawal seizure", Answer::yes}, {"opioid", Answer::yes}};
    ASSERT_TRUE(write({screen}));
    const auto view =
        assess_suitability(*desk_->record(patient_).value(), desk_->formulary(), desk_->rules(), kToday);
    EXPECT_EQ(view.suggested, SuitabilityOutcome::specialist_or_inpatient);
    EXPECT_EQ(view.findings.size(), 2u);
    EXPECT_FALSE(view.missing.empty());
    EXPECT_FALSE(write({Suitability{SuitabilityOutcome::outpatient_taper, {}, ""}}));
}

TEST_F(DeskTest, AClinicsOwnProductIsOfferedAndAWithdrawnOneIsNot) {
    const Product own{"clonazepam", Form::oral_solution, Dose::micrograms(100), Cuts::whole,
                      Volume::nanolitres(100'000)};
    const auto has = [&] {
        for (const auto& listed : desk_->formulary().find("clonazepam")->products)
            if (listed.product == own) return true;
        return false;
    };
    ASSERT_TRUE(desk_->carry_out({}, {ProductListed{own, "made by our pharmacy"}}, {}, kNow));
    EXPECT_TRUE(has());
    ASSERT_TRUE(desk_->carry_out({}, {ProductWithdrawn{own, "no longer made"}}, {}, kNow));
    EXPECT_FALSE(has());
}

TEST_F(DeskTest, PricesAreTheClinicsOwnAndTheLastOneStands) {
    const Product quarters{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
    Product halves = quarters, other = quarters;
    halves.cuts = Cuts::halves;
    other.strength = Dose::milligrams(2);
    const auto price = [&](const Product& product) {
        return find_price(prices_in_force(desk_->clinic_record()), product);
    };
    EXPECT_FALSE(price(quarters));
    ASSERT_TRUE(desk_->carry_out({}, {PriceSet{quarters, "0.12"}, CurrencySet{"crowns"}}, {}, kNow));
    EXPECT_EQ(price(quarters), Price{120'000});
    EXPECT_EQ(price(halves), Price{120'000}) << "a cut changes what is taken, not what is paid";
    EXPECT_FALSE(price(other));
    EXPECT_EQ(desk_->clinic_record().currency->value.currency, "crowns");
    ASSERT_TRUE(desk_->carry_out({}, {PriceSet{halves, "0.15"}}, {}, kNow));
    EXPECT_EQ(price(quarters), Price{150'000});
    for (const char* text : {"abc", "-1", "1,5", "100001", "0.1234567"}) {
        const auto refused = desk_->carry_out({}, {PriceSet{quarters, text}}, {}, kNow);
        ASSERT_FALSE(refused) << text;
        EXPECT_EQ(refused.faults().front().id, "price-not-a-number") << text;
    }
    EXPECT_FALSE(desk_->carry_out({}, {CurrencySet{"a sentence about money"}}, {}, kNow));
    ASSERT_TRUE(desk_->carry_out({}, {PriceSet{quarters, ""}}, {}, kNow));
    EXPECT_FALSE(price(quarters)) << "a price can be taken back";
    EXPECT_EQ(desk_->clinic_record().prices.size(), 3U) << "what it was stays in the record";
}

TEST_F(DeskTest, AmendingNeedsAReasonAndAnEntryThatIsThere) {
    ASSERT_TRUE(write({NoteAdded{"wrong person"}}));
    const EventId note = desk_->record(patient_).value()->notes.back().id;
    EXPECT_FALSE(desk_->amend(patient_, note, "", kNow));
    EXPECT_FALSE(desk_->amend(patient_, "nothing", "typo", kNow));
    ASSERT_TRUE(desk_->amend(patient_, note, "meant for someone else", kNow));
    EXPECT_TRUE(desk_->record(patient_).value()->notes.empty());
}

}  // namespace
}  // namespace evenfall
