// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/plan_base.h"

#include <gtest/gtest.h>

#include "casework/desk.h"
#include "planning/by_hand.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kToday = day_at(2026, 12, 20);
const LocalTime kNow = at_clock(kToday, {9 * 60});

Product tablet() {
    return {"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
}

/// A desk with one person on 2.5 mg of clonazepam, ready for a plan.
class PlanBaseTest : public testing::Test {
  protected:
    void SetUp() override {
        const auto resources = resources_folder();
        auto log = log_in_memory("user", [] { return Instant(std::chrono::seconds(1'800'000'000)); });
        desk_ = std::make_unique<Desk>(Desk::open(std::move(log),
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
        write({screen});
        write({RegimenRecorded{{kToday - days(100), before()}, Use::scheduled}, ProductsChosen{{tablet()}},
               history, baseline,
               Suitability{SuitabilityOutcome::outpatient_taper, {}, "steady, well supported"}});
    }

    static Regimen before() {
        return {{{{480}, "clonazepam", Dose::milligrams(1), "", ""},
                 {{1260}, "clonazepam", Dose::micrograms(1500), "", ""}}};
    }

    void write(std::vector<Change> changes, const std::vector<Override>& overrides = {}) {
        const auto done = desk_->carry_out(patient_, std::move(changes), overrides, kNow);
        ASSERT_TRUE(done) << done.faults().front().id << " " << done.faults().front().place;
    }

    /// Two signed steps from tomorrow on, an outlook after them.
    Plan taper() {
        PlanRequest request;
        request.drug = "clonazepam";
        request.start = kToday + days(1);
        request.target = Share::percent(8);
        return plan_taper(request, taper_input(desk_->formulary(), "clonazepam", before(), {tablet()}),
                          desk_->rules())
            .value();
    }

    Course course(LocalTime at) { return desk_->course(patient_, at).value(); }
    PlanBase base(LocalTime at) {
        return plan_base(*desk_->record(patient_).value(), course(at), day_of(at)).value();
    }

    std::unique_ptr<Desk> desk_;
    PatientId patient_;
};

TEST_F(PlanBaseTest, SignedStepsToComeAreKeptOutsideAHoldAndGivenUpInOne) {
    write({PlanCommitted{taper(), {}, {}}});
    const LocalTime later = kNow + days(5);
    EXPECT_EQ(base(later).begun, 1);
    EXPECT_EQ(base(later).agreed, 2);
    write({HoldStarted{kToday + days(6), kToday + days(20), "sleep is poor"}});
    EXPECT_EQ(base(later).agreed, 1);
    ASSERT_TRUE(base(later).hold);
    EXPECT_EQ(first_free_day(base(later), 1), kToday + days(20));
}

TEST_F(PlanBaseTest, ASignatureAfterAHoldEndsItWhereItsNextStepBegins) {
    const Plan first = taper();
    write({PlanCommitted{first, {}, {}}});
    write({HoldStarted{kToday + days(6), kToday + days(20), "sleep is poor"}});
    EXPECT_TRUE(course(kNow + days(10)).on_hold);
    const PlanBase held = base(kNow + days(10));
    Replan change{1, kToday + days(25), first.request,
                  taper_input(desk_->formulary(), "clonazepam", before(), {tablet()})};
    const Plan second = replan(first, change, desk_->rules()).value();
    write({HoldEnded{kToday + days(10)}, PlanCommitted{second, held.replaces, {}}});
    const Course now = course(kNow + days(12));
    EXPECT_FALSE(now.on_hold);
    EXPECT_EQ(now.daily_today, first.steps[0].daily);
    EXPECT_EQ(now.stretches[*now.current].kind, Stretch::Kind::hold);
    EXPECT_EQ(now.stretches[*now.current].to, kToday + days(25));
    const Course after = course(kNow + days(26));
    EXPECT_EQ(after.daily_today, second.steps[1].daily);
    EXPECT_FALSE(open_hold(*desk_->record(patient_).value()));
}

TEST_F(PlanBaseTest, AStepThatWasSignedInTimeOfAHoldDoesNotBegin) {
    const Plan first = taper();
    write({PlanCommitted{first, {}, {}}});
    write({HoldStarted{kToday + days(6), kToday + days(20), "sleep is poor"}});
    EXPECT_EQ(course(kNow + days(40)).daily_today, first.steps[0].daily);
}

TEST_F(PlanBaseTest, AfterAPlanEndedTheDoseInForceIsTheGroundOfTheNext) {
    const Plan first = taper();
    write({PlanCommitted{first, {}, {}}});
    const LocalTime later = kNow + days(5);
    const auto changes = end_plan(base(later), Use::scheduled, "Maintenance: agreed");
    ASSERT_TRUE(desk_->carry_out(patient_, changes, {}, later));
    const PlanBase ended = base(later + days(30));
    EXPECT_FALSE(ended.in_force);
    EXPECT_EQ(daily_amount(ended.start, "clonazepam"), first.steps[0].daily);
    EXPECT_EQ(course(later + days(60)).daily_today, first.steps[0].daily);
    const auto* regimen = regimen_in_force(*desk_->record(patient_).value(), day_of(later));
    EXPECT_EQ(daily_amount(regimen->value.regimen.regimen, "clonazepam"), first.steps[0].daily);
}

TEST_F(PlanBaseTest, GoingBackUpInAPlanIsObjectedToAndKeptStepsAreNotAskedAboutAgain) {
    Plan first = taper();
    write({PlanCommitted{first, {}, {}}});
    const HandStep up{kToday + days(8), before().doses, 14};
    const Plan back = with_hand_step(first, 1, up, desk_->rules()).value();
    const PlanCommitted change{back, base(kNow + days(5)).replaces, {}};
    const auto objections = desk_->objections(patient_, change, kNow + days(5));
    ASSERT_EQ(objections.size(), 1U);
    EXPECT_EQ(objections.front().flag.rule, "going-back-up");
    write({change}, {{"going-back-up", "a seizure in hospital"}});
    EXPECT_EQ(course(kNow + days(9)).daily_today, Dose::micrograms(2500));
}

TEST_F(PlanBaseTest, AProductThatWouldMoveTheFloorIsFoundByItsName) {
    const auto candidates = candidate_products(desk_->formulary(), "clonazepam");
    for (const Product& candidate : candidates) EXPECT_FALSE(is_modified_release(candidate.form));
    const Flag flag{"floor-would-move",
                    {{"product", "clonazepam 0.125 mg orally disintegrating tablet"}, {"amount", "0.5 mg"}},
                    {}};
    const auto product = product_that_moves(flag, candidates);
    ASSERT_TRUE(product);
    EXPECT_EQ(product->strength, Dose::micrograms(125));
    EXPECT_FALSE(product_that_moves({"floor", {}, {}}, candidates));
}

}  // namespace
}  // namespace evenfall
