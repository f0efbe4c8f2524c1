// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "casework/desk.h"
#include "casework/drawn_course.h"
#include "casework/plan_base.h"
#include "papers/common.h"
#include "papers/source.h"
#include "papers/steps.h"
#include "planning/by_hand.h"
#include "rules/texts.h"

// What is told of a person whose plan crosses over to another agent that they do not take yet.

namespace evenfall {
namespace {

using std::chrono::days;

const Day kToday = day_at(2026, 11, 23);
const Day kFirstStage = day_at(2026, 11, 30);

class CrossingCourseTest : public testing::Test {
  protected:
    void SetUp() override {
        const auto resources = resources_folder();
        desk_ = std::make_unique<Desk>(
            Desk::open(log_in_memory("user", [] { return Instant(std::chrono::seconds(1'800'000'000)); }),
                       load_formulary(resources / "formulary.json").value(),
                       Rules::load(resources / "rules.json").value(),
                       {"user", "A. Prescriber", Role::prescriber, "L-1"})
                .value());
        Person person;
        person.reference = "p-1";
        person.name = "Anna Otter";
        patient_ = desk_->add_person(person, kToday).value();
        RiskScreen screen;
        for (const std::string& question : kRiskWords) screen.answers[question] = Answer::no;
        History history;
        history.treatment = "talking therapy";
        Baseline baseline;
        baseline.on = kToday;
        write(kToday, {screen});
        write(kToday, {RegimenRecorded{{kToday - days(100), before()}, Use::scheduled},
                       ProductsChosen{products()}, history, baseline,
                       Suitability{SuitabilityOutcome::outpatient_taper, {}, "steady, well supported"}});
        const Plan plan = crossover();
        PlanCommitted signature{plan, {}, {}};
        std::vector<Override> reasons;
        for (const Objection& objection : desk_->objections(patient_, signature, noon(kToday)))
            reasons.push_back({objection.flag.rule, "weighed with the person"});
        write(kToday, {signature}, reasons);
    }

    static Regimen before() {
        return {{{{8 * 60}, "alprazolam", Dose::micrograms(500), "", ""},
                 {{14 * 60}, "alprazolam", Dose::micrograms(500), "", ""},
                 {{22 * 60}, "alprazolam", Dose::micrograms(500), "", ""}}};
    }
    static std::vector<Product> products() {
        return {{"alprazolam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}},
                {"diazepam", Form::tablet, Dose::milligrams(5), Cuts::halves, {}},
                {"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}}};
    }
    static LocalTime noon(Day day) { return at_clock(day, {12 * 60}); }

    Plan crossover() {
        CrossoverInput input;
        input.regimen = before();
        input.from = "alprazolam";
        input.to = "diazepam";
        input.start = kFirstStage;
        input.products = products();
        const auto ways = plan_crossover(input, desk_->formulary(), desk_->rules()).value();
        PlanRequest request;
        request.drug = "diazepam";
        request.start = kFirstStage;
        request.target = Share::percent(8);
        const Plan stages = plan_of_crossover(request, input, ways.front());
        request.start = *first_cut_after_crossover(stages);
        return taper_after_crossover(stages, request,
                                     taper_input(desk_->formulary(), "diazepam", before(), products()),
                                     desk_->rules())
            .value();
    }
    void write(Day on, std::vector<Change> changes, const std::vector<Override>& overrides = {}) {
        const auto done = desk_->carry_out(patient_, std::move(changes), overrides, noon(on));
        ASSERT_TRUE(done) << done.faults().front().id << " " << done.faults().front().place;
    }
    Course course(Day on) { return desk_->course(patient_, noon(on)).value(); }
    bool is_said(Day on, const std::string& rule) {
        const auto reasons =
            reasons_for(*desk_->record(patient_).value(), course(on), desk_->ground(), noon(on));
        return std::ranges::any_of(reasons, [&](const Reason& each) { return each.flag.rule == rule; });
    }
    void expect_before_the_crossover(Day on) {
        const Course now = course(on);
        EXPECT_EQ(now.drug, "alprazolam");
        EXPECT_EQ(now.daily_today, Dose::micrograms(1500));
        EXPECT_NE(now.stretches[*now.current].kind, Stretch::Kind::off);
        EXPECT_FALSE(is_said(on, "at-the-floor"));
        EXPECT_FALSE(is_said(on, "steady-off"));
    }
    /// What the papers take for today's regimen is what the course tells.
    void expect_papers_agree(Day on) {
        const auto source = papers::source_from_record(
            *desk_->record(patient_).value(), desk_->clinic(), desk_->formulary(), desk_->rules(),
            load_scales(resources_folder() / "scales.json").value(), on);
        const Course now = course(on);
        EXPECT_EQ(papers::regimen_on_issue(source).doses, now.today->doses) << print_day(on);
    }

    /// The sheet's row of a day has the doses of that day, and the pharmacy is told how to make them.
    void expect_sheet_agrees(Day on) {
        const auto source = papers::source_from_record(
            *desk_->record(patient_).value(), desk_->clinic(), desk_->formulary(), desk_->rules(),
            load_scales(resources_folder() / "scales.json").value(), on);
        const auto steps = papers::firm_steps(source);
        const auto row = std::ranges::find_if(
            steps, [&](const papers::FirmStep& step) { return step.from <= on && on <= step.last; });
        ASSERT_NE(row, steps.end()) << print_day(on);
        Regimen sheet;
        for (const PlannedDose& dose : row->step->doses)
            sheet.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
        EXPECT_EQ(sheet.doses, course(on).today->doses) << print_day(on);
        ASSERT_TRUE(source.supply) << print_day(on);
        EXPECT_FALSE(source.supply->fills.empty());
    }

    std::unique_ptr<Desk> desk_;
    PatientId patient_;
};

TEST_F(CrossingCourseTest, WhoseCrossoverStartsNextWeekIsNotOff) {
    expect_before_the_crossover(kToday);
    EXPECT_TRUE(agents_trade_places(course(kToday)));
    expect_papers_agree(kToday);
}

TEST_F(CrossingCourseTest, LittleOfTheNewAgentIsNoFloor) {
    const Course first = course(kFirstStage);
    EXPECT_EQ(first.drug, "diazepam");
    EXPECT_EQ(first.daily_today, Dose::milligrams(5));
    EXPECT_FALSE(is_said(kFirstStage, "at-the-floor"));
    expect_papers_agree(kFirstStage);
}

TEST_F(CrossingCourseTest, AHoldFromTheDayOfAStageKeepsWhatWasTakenBefore) {
    ASSERT_NE(kept_by_hold(course(kFirstStage), kFirstStage), nullptr);
    EXPECT_EQ(kept_by_hold(course(kFirstStage), kFirstStage)->doses.front().drug, "alprazolam");
    EXPECT_EQ(kept_by_hold(course(kFirstStage), kFirstStage + days(1))->daily, Dose::milligrams(5));
    write(kFirstStage, {HoldStarted{kFirstStage, kFirstStage + days(14), "a hard week"}});
    expect_before_the_crossover(kFirstStage);
    expect_before_the_crossover(kFirstStage + days(30));
    EXPECT_TRUE(course(kFirstStage).on_hold);
    EXPECT_FALSE(course(kFirstStage).signed_through);
    for (const int after : {0, 1, 7, 8, 30}) expect_papers_agree(kFirstStage + days(after));
}

/// From before the first stage until after the second, entered on the day or the day before.
TEST_F(CrossingCourseTest, PapersAndCourseAgreeWheneverTheHoldBegins) {
    for (const int from : {-3, -1, 0, 1, 6, 7, 8})
        for (const int entered_before : {0, 1}) {
            SCOPED_TRACE(from);
            SetUp();
            const Day first = kFirstStage + days(from);
            write(first - days(entered_before), {HoldStarted{first, first + days(14), "a hard week"}});
            for (const int later : {0, 1, 5, 10, 13}) {
                const Day on = first + days(later);
                EXPECT_TRUE(course(on).on_hold) << print_day(on);
                expect_papers_agree(on);
                expect_sheet_agrees(on);
            }
        }
}

/// Two laptops hold before they meet: the earlier first day and the later review count.
TEST_F(CrossingCourseTest, OfTwoHoldsTheEarlierBeginsForWindowAndPaper) {
    write(kFirstStage + days(1), {HoldStarted{kFirstStage + days(7), kFirstStage + days(30), "one laptop"}});
    write(kFirstStage + days(1), {HoldStarted{kFirstStage + days(2), kFirstStage + days(16), "the other"}});
    const auto hold = open_hold(*desk_->record(patient_).value());
    ASSERT_TRUE(hold);
    EXPECT_EQ(hold->from, kFirstStage + days(2));
    EXPECT_EQ(hold->review_on, kFirstStage + days(30));
    for (const int later : {2, 7, 8, 20}) {
        expect_papers_agree(kFirstStage + days(later));
        expect_sheet_agrees(kFirstStage + days(later));
    }
}

/// What is recorded as taken from the day of a hold on is what is held.
TEST_F(CrossingCourseTest, ARegimenOfTheHoldsOwnDayIsHeld) {
    Regimen less = before();
    less.doses.pop_back();
    write(kToday, {RegimenRecorded{{kToday, less}, Use::scheduled}});
    write(kToday, {HoldStarted{kToday, kToday + days(14), "one dose fewer is enough"}});
    EXPECT_EQ(course(kToday).daily_today, Dose::milligrams(1));
    EXPECT_EQ(course(kFirstStage + days(3)).daily_today, Dose::milligrams(1));
}

/// An outlook is nothing that a hold could keep.
TEST_F(CrossingCourseTest, AHoldNeverKeepsAnOutlook) {
    const Course now = course(kFirstStage);
    const Stretch* kept = kept_by_hold(now, kFirstStage + days(100));
    ASSERT_NE(kept, nullptr);
    EXPECT_TRUE(kept->agreed);
    write(kFirstStage, {HoldStarted{kFirstStage + days(100), kFirstStage + days(120), "a journey"}});
    EXPECT_EQ(course(kFirstStage + days(101)).today->doses, [&] {
        Regimen held;
        for (const PlannedDose& dose : kept->doses)
            held.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
        return held.doses;
    }());
}

TEST_F(CrossingCourseTest, EveryAgentThatRisesIsGoingBackUp) {
    Regimen more = before();
    more.doses[0].amount = Dose::milligrams(1);
    Regimen other = before();
    other.doses.push_back({{23 * 60}, "diazepam", Dose::milligrams(5), "", ""});
    for (const Regimen& regimen : {more, other}) {
        const auto objections =
            desk_->objections(patient_, RegimenRecorded{{kToday, regimen}, Use::scheduled}, noon(kToday));
        EXPECT_TRUE(std::ranges::any_of(
            objections, [](const Objection& each) { return each.flag.rule == "going-back-up"; }));
    }
}

/// One agent came off, another goes on: nothing that is said to who came off is said here.
TEST_F(CrossingCourseTest, WhoTakesAnotherAgentIsNotOff) {
    Regimen other;
    other.doses = {{{22 * 60}, "temazepam", Dose::milligrams(15), "", ""}};
    Course off = course(kToday);
    off.today = Regimen{};
    EXPECT_TRUE(nothing_is_taken(off));
    off.today = other;
    EXPECT_FALSE(nothing_is_taken(off));
}

/// The line in the list draws one scale: a crossover is neither a rise nor a stop.
TEST_F(CrossingCourseTest, TheLineOfTheListDrawsNoRise) {
    const Day on = kFirstStage + days(8);
    const CaseloadLine line =
        caseload_line(*desk_->record(patient_).value(), course(on), desk_->ground(), noon(on));
    ASSERT_GE(line.spark.size(), 4U);
    EXPECT_DOUBLE_EQ(line.spark.front().mg, 15);
    EXPECT_DOUBLE_EQ(line.spark.back().mg, 15);
}

}  // namespace
}  // namespace evenfall
