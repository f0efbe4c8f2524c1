// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "casework/dangers.h"
#include "casework/desk.h"
#include "casework/interactions.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::days;
using std::chrono::hours;

const Day kToday = day_at(2026, 12, 21);
const LocalTime kNow = at_clock(kToday, {9 * 60});

Product tablet() {
    return {"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
}

/// A record that is written directly: what the rules read is what stands there.
class Reasons : public testing::Test {
  protected:
    void SetUp() override {
        RegimenRecorded regimen;
        regimen.regimen = {kToday - days(400), {{{{480}, "clonazepam", Dose::milligrams(2), "", ""}}}};
        record_.regimens.push_back({"r1", stamp(kToday - days(60)), regimen});
        Plan plan;
        plan.request.drug = "clonazepam";
        plan.products = {tablet()};
        for (int i = 0; i < 3; ++i) {
            Step step;
            step.number = i + 1;
            step.starts = kToday - days(20) + days(14 * i);
            step.days = 14;
            step.status = StepStatus::committed;
            step.daily = Dose::micrograms(2000 - 500 * (i + 1));
            step.doses = {{{480}, "clonazepam", step.daily, {{tablet(), Cut::whole, 3 - i, {}}}}};
            plan.steps.push_back(step);
        }
        record_.plans.push_back({"p1", stamp(kToday - days(21)), PlanCommitted{plan, {}, {}}});
        record_.suitability = {"s1", stamp(kToday - days(22)), Suitability{}};
        record_.monitoring.push_back({"m1", stamp(kToday), MonitoringChecked{kToday - days(30), "", {}}});
        record_.next_contact = {"n1", stamp(kToday), ContactPlanned{kToday + days(5), "call"}};
        call(kToday - days(5), {{"seizure", "no"}});
    }

    static Stamp stamp(Day day, const UserId& author = "nurse") {
        const auto at = std::chrono::sys_days(day.time_since_epoch()) + hours(10);
        return {"log", 1, at.time_since_epoch() / std::chrono::microseconds(1), author, Instant(at)};
    }
    /// After everything that was written before.
    Stamp later() {
        Stamp made = stamp(kToday);
        made.clock += ++later_;
        return made;
    }
    void call(Day on, std::vector<std::pair<std::string, std::string>> answers,
              const UserId& author = "nurse", int minute = 600) {
        record_.check_ins.push_back({"c" + std::to_string(record_.check_ins.size() + 1), stamp(on, author),
                                     CheckIn{at_clock(on, {minute}), std::move(answers), ""}});
    }
    Course course() const { return derive_course(record_, formulary_, rules_, kNow); }
    Ground ground() const { return {formulary_, rules_, scales_}; }
    std::vector<Reason> reasons() const { return reasons_for(record_, course(), ground(), kNow); }
    const Reason* find(const std::string& rule) {
        found_ = reasons();
        const auto at = std::ranges::find(found_, rule, [](const Reason& each) { return each.flag.rule; });
        return at == found_.end() ? nullptr : &*at;
    }
    void expect(const std::string& rule, Urgency urgency) {
        const Reason* reason = find(rule);
        ASSERT_NE(reason, nullptr) << rule;
        EXPECT_EQ(reason->urgency, urgency) << rule;
        EXPECT_EQ(rules_.sentence(reason->flag).find('{'), std::string::npos)
            << rules_.sentence(reason->flag);
    }

    Formulary formulary_ = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules_ = Rules::load(resources_folder() / "rules.json").value();
    Scales scales_ = load_scales(resources_folder() / "scales.json").value();
    PatientRecord record_;
    std::vector<Reason> found_;
    int later_ = 0;
};

TEST_F(Reasons, ASteadyPersonHasOneReasonAndItIsSteady) {
    ASSERT_EQ(reasons().size(), 1u) << reasons().front().flag.rule;
    EXPECT_EQ(reasons().front().urgency, Urgency::steady);
}

TEST_F(Reasons, ADangerStandsFirstUntilSomeoneIsToldAndStaysUntilACallHearsNo) {
    call(kToday - days(1), {{"seizure", "yes"}});
    EXPECT_EQ(reasons().front().flag.rule, "red-flag-seizure");
    expect("danger-untold", Urgency::red_flag);
    record_.told.push_back({"t1", stamp(kToday), DangerTold{"c2", kNow, "Dr A.", "", "sends an ambulance"}});
    expect("red-flag-seizure", Urgency::red_flag);
    EXPECT_EQ(find("danger-untold"), nullptr);
    call(kToday, {{"seizure", "no"}}, "nurse", 8 * 60);
    EXPECT_EQ(find("red-flag-seizure"), nullptr);
}

TEST_F(Reasons, ADangerHeardAgainHasToBeToldAgain) {
    call(kToday - days(3), {{"confusion", "yes"}});
    record_.told.push_back({"t1", stamp(kToday), DangerTold{"c2", kNow, "Dr A.", "", "comes"}});
    EXPECT_EQ(find("danger-untold"), nullptr);
    call(kToday - days(1), {{"confusion", "yes"}});
    expect("danger-untold", Urgency::red_flag);
}

TEST_F(Reasons, AnUntoldSameDayDangerStandsAboveATheToldEmergency) {
    call(kToday - days(1), {{"seizure", "yes"}});
    record_.told.push_back({"t1", stamp(kToday), DangerTold{"c2", kNow, "Dr A.", "", "comes"}});
    call(kToday - days(1), {{"pregnancy", "yes"}}, "nurse", 700);
    EXPECT_EQ(reasons().front().flag.rule, "red-flag-pregnancy");
    const auto dangers = standing_dangers(record_, rules_, scales_, kNow);
    ASSERT_EQ(dangers.size(), 2u);
    EXPECT_FALSE(dangers[0].told);
    EXPECT_EQ(dangers[1].told->value.who, "Dr A.");
}

TEST_F(Reasons, WhatIsStillToComeRaisesNothing) {
    call(kToday + days(1), {{"seizure", "yes"}});
    EXPECT_EQ(find("red-flag-seizure"), nullptr);
}

TEST_F(Reasons, QuestionNineOfTheDepressionFormIsADanger) {
    record_.scales.push_back(
        {"f1", stamp(kToday), ScaleAnswers{"PHQ-9", kToday - days(2), {0, 0, 0, 0, 0, 0, 0, 0, 1}}});
    expect("phq-9-item-9", Urgency::red_flag);
    call(kToday - days(1), {{"suicidal thoughts", "no"}});
    EXPECT_EQ(find("phq-9-item-9"), nullptr) << "a later call asked and heard no";
}

TEST_F(Reasons, QuestionNineLeftBlankIsAskedToday) {
    record_.scales.push_back(
        {"f1", stamp(kToday), ScaleAnswers{"PHQ-9", kToday, {0, 0, 0, 0, 0, 0, 0, 0, -1}}});
    expect("phq-9-item-9-blank", Urgency::today);
}

TEST_F(Reasons, AnAttemptWithoutAnswerStandsUntilACallAndManyEscalate) {
    record_.attempts.push_back({"a1", stamp(kToday), ContactAttempted{kNow - hours(1), "555 0100", ""}});
    expect("call-unanswered", Urgency::today);
    record_.attempts.push_back({"a2", stamp(kToday), ContactAttempted{kNow - hours(1), "", ""}});
    record_.attempts.push_back({"a3", stamp(kToday), ContactAttempted{kNow, "", ""}});
    expect("call-attempts-escalate", Urgency::today);
    call(kToday, {}, "nurse", 9 * 60);
    EXPECT_EQ(find("call-attempts-escalate"), nullptr);
}

TEST_F(Reasons, AReasonPutOffIsGoneUntilItsDay) {
    record_.next_contact = {"n1", stamp(kToday), ContactPlanned{kToday - days(2), "call"}};
    expect("contact-overdue", Urgency::today);
    record_.snoozed.push_back(
        {"z1", stamp(kToday),
         ReasonSnoozed{"contact-overdue", kToday + days(2), "on the ward until Wednesday"}});
    EXPECT_EQ(find("contact-overdue"), nullptr);
    const auto put_off = snoozed_for(record_, course(), ground(), kNow);
    ASSERT_EQ(put_off.size(), 1u);
    EXPECT_EQ(put_off.front().because, "on the ward until Wednesday");
    record_.snoozed.back().value.until = kToday;
    EXPECT_NE(find("contact-overdue"), nullptr);
}

TEST_F(Reasons, ADangerIsNeverPutOffWhateverTheRecordSays) {
    call(kToday - days(1), {{"seizure", "yes"}});
    record_.snoozed.push_back(
        {"z1", stamp(kToday), ReasonSnoozed{"red-flag-seizure", kToday + days(9), "no"}});
    EXPECT_NE(find("red-flag-seizure"), nullptr);
}

TEST_F(Reasons, WhoDiedOrMovedAwayIsNeverOnTheCallList) {
    call(kToday - days(1), {{"seizure", "yes"}});
    record_.standing = {"w1", stamp(kToday), StandingChanged{CareStanding::died, kToday, ""}};
    const auto all = reasons();
    ASSERT_EQ(all.size(), 1u);
    EXPECT_EQ(all.front().flag.rule, "not-in-care");
    EXPECT_EQ(all.front().urgency, Urgency::steady);
    std::vector<CaseloadLine> lines(2);
    lines[0] = caseload_line(record_, course(), ground(), kNow);
    record_.standing.reset();
    lines[1] = caseload_line(record_, course(), ground(), kNow);
    sort_caseload(lines);
    EXPECT_EQ(lines.back().standing, CareStanding::died);
}

TEST_F(Reasons, ATestIsExplainedResultedAndTalkedAbout) {
    DrugTestNoted test;
    test.ordered_on = kToday - days(8);
    record_.drug_tests.push_back({"d1", stamp(kToday), test});
    expect("drug-test-unexplained", Urgency::this_week);
    expect("drug-test-open", Urgency::this_week);
    test.continues = "d1";
    test.explained_on = kToday - days(8);
    test.result_on = kToday - days(1);
    test.agrees = TestAgrees::not_expected;
    record_.drug_tests.push_back({"d2", stamp(kToday), test});
    EXPECT_EQ(find("drug-test-open"), nullptr);
    expect("drug-test-not-expected", Urgency::today);
    call(kToday, {}, "nurse", 8 * 60);
    EXPECT_EQ(find("drug-test-not-expected"), nullptr);
}

TEST_F(Reasons, TheMonitoringDatabaseIsDueWhenItsDayHasCome) {
    record_.monitoring.back().value.next_due = kToday;
    expect("monitoring-due", Urgency::this_week);
}

TEST_F(Reasons, AMonitoringDatabaseNeverLookedAtPressesBeforeAPlanAndIsANoteAfterwards) {
    record_.monitoring.clear();
    EXPECT_EQ(find("monitoring-never"), nullptr);
    const auto acts = next_acts(record_, course(), ground(), kNow);
    const auto note =
        std::ranges::find(acts, "monitoring-never", [](const NextAct& each) { return each.why.rule; });
    ASSERT_NE(note, acts.end());
    EXPECT_EQ(note->urgency, Urgency::steady);
    EXPECT_EQ(note->act, NextAct::Act::record_test);
    record_.plans.clear();
    expect("monitoring-never", Urgency::this_week);
}

TEST_F(Reasons, AnOpioidWithoutNaloxonePressesToday) {
    record_.other_medicines = {"o1", stamp(kToday - days(2)),
                               OtherMedicines{{{"Tramadol 50 mg", ""}}, false}};
    expect("interaction-opioid", Urgency::today);
    record_.other_medicines->value.naloxone_at_home = true;
    expect("interaction-opioid", Urgency::this_week);
    record_.other_medicines->stamp = stamp(kToday - days(40));
    EXPECT_EQ(find("interaction-opioid"), nullptr) << "only what is new presses";
    EXPECT_TRUE(interactions_of(record_, course(), formulary_, rules_).front().opioid);
}

TEST_F(Reasons, DaysThatDifferFromWhatWasAgreedAreCounted) {
    IntakeNoted noted;
    for (int i = 1; i <= 6; ++i)
        noted.entries.push_back({at_clock(kToday - days(i), {480}), "clonazepam",
                                 Dose::micrograms(i <= 2 ? 2500 : 1000), TakenWhy::unsaid, ""});
    record_.intake.push_back({"i1", stamp(kToday), noted});
    expect("dosing-uneven", Urgency::this_week);
    EXPECT_EQ(find("dosing-uneven")->flag.args.at("count"), "2");
}

TEST_F(Reasons, ACountThatDoesNotFitIsAskedAboutAndAFillIsNone) {
    const auto count = [&](Day on, int tablets) {
        record_.supply.push_back({"u" + std::to_string(record_.supply.size()), stamp(on),
                                  SupplyCounted{on, {{tablet(), 4 * tablets, {}}}}});
    };
    count(kToday - days(10), 60);
    count(kToday - days(1), 60);  // nine days took about 22
    expect("count-more", Urgency::this_week);
    record_.supply.back().value.on_hand.front().quarters = 4 * 20;
    expect("count-fewer", Urgency::this_week);
    record_.supply.back().value.on_hand.front().quarters = 4 * 200;
    EXPECT_EQ(find("count-more"), nullptr) << "that many are a fill";
    record_.supply.back().value.on_hand.front().quarters = 4 * 39;
    EXPECT_EQ(find("count-more"), nullptr);
    EXPECT_EQ(find("count-fewer"), nullptr);
}

TEST_F(Reasons, CountsAreComparedByTheirDaysAndByTheirProducts) {
    const auto count = [&](Day on, std::vector<OnHand> on_hand) {
        record_.supply.push_back(
            {"u" + std::to_string(record_.supply.size()), stamp(on), SupplyCounted{on, std::move(on_hand)}});
    };
    const auto tablets = [](int many) { return OnHand{tablet(), 4 * many, {}}; };
    Product other = tablet();
    other.strength = Dose::milligrams(2);
    count(kToday - days(1), {tablets(60)});
    count(kToday - days(10), {tablets(60)});  // entered late: nine days took about 22
    expect("count-more", Urgency::this_week);
    count(kToday - days(1), {tablets(38)});
    EXPECT_EQ(find("count-more"), nullptr) << "a recount of the same day puts the first one right";
    record_.supply.back().value.on_hand = {tablets(60)};
    count(kToday - days(4), {{other, 4 * 30, {}}});
    expect("count-more", Urgency::this_week);
    count(kToday, {{other, 4 * 30, {}}});
    EXPECT_EQ(find("count-more"), nullptr) << "the newest count is of the other product, and fits";
}

TEST_F(Reasons, TwoPeopleWhoWroteDownOneCallAreAskedWhichStands) {
    call(kToday - days(2), {}, "nurse", 600);
    call(kToday - days(2), {}, "other", 620);
    expect("call-twice", Urgency::this_week);
}

TEST_F(Reasons, OneCallWrittenDownOnTwoLaptopsIsAskedAboutToo) {
    call(kToday - days(2), {}, "nurse", 600);
    call(kToday - days(2), {}, "nurse", 620);
    EXPECT_EQ(find("call-twice"), nullptr) << "two calls in a row";
    record_.check_ins.back().stamp.log = "laptop";
    expect("call-twice", Urgency::this_week);
}

TEST_F(Reasons, WhatHappensInALifePressesWhileItLasts) {
    for (const auto& [kind, name] : Words<LifeKind>::table) {
        record_.life_events = {{"l1", stamp(kToday), LifeEvent{kind, kToday - days(1), {}, ""}}};
        std::string rule = "life-" + std::string(name);
        std::ranges::replace(rule, ' ', '-');
        ASSERT_NE(find(rule), nullptr) << rule;
        EXPECT_NE(find(rule)->urgency, Urgency::steady);
        record_.life_events.front().value.from = kToday - days(30);
        EXPECT_EQ(find(rule), nullptr) << rule;
    }
}

TEST_F(Reasons, ACallIsDueWhereNoneIsPlanned) {
    record_.next_contact.reset();
    record_.check_ins.clear();
    call(kToday - days(15), {});
    expect("check-in-due", Urgency::today);
}

TEST_F(Reasons, SupplyThatEndsBeforeTheNextStepIsSeen) {
    record_.plans.back().value.plan.steps[2].starts = kToday + days(20);
    record_.plans.back().value.plan.steps[1].days = 34;
    record_.supply.push_back({"u1", stamp(kToday), SupplyCounted{kToday, {{tablet(), 4 * 2 * 15, {}}}}});
    expect("supply-before-step", Urgency::this_week);
}

TEST_F(Reasons, AfterOffCallsGoOnForSixMonthsAndLeftOversComeBack) {
    auto& steps = record_.plans.back().value.plan.steps;
    steps.back().daily = {};
    steps.back().doses.clear();
    steps.back().days.reset();
    for (Step& step : steps) step.starts -= days(60);
    record_.next_contact.reset();
    record_.check_ins.clear();
    call(kToday - days(40), {});
    expect("after-off-call", Urgency::today);
    expect("leftovers-open", Urgency::this_week);
    record_.returned.push_back(
        {"b1", stamp(kToday), TabletsReturned{kToday, {{tablet(), 4, {}}}, "pharmacy"}});
    EXPECT_EQ(find("leftovers-open"), nullptr);
    for (Step& step : steps) step.starts -= days(200);
    EXPECT_EQ(reasons().front().flag.rule, "steady-off");
}

TEST_F(Reasons, SymptomsThatRoseMoreThanAfterTheStepBeforeAreSeen) {
    SymptomsNoted noted;
    for (int i = 0; i < 34; ++i) {
        const Day day = kToday - days(i);
        const int severity = day >= kToday - days(5) ? 4 : 2;
        noted.entries.push_back({at_clock(day, {540}), "anxiety", severity});
    }
    record_.symptoms.push_back({"y1", stamp(kToday), noted});
    expect("response-worse", Urgency::this_week);
    for (Rating& rating : record_.symptoms.back().value.entries)
        if (rating.severity == 4) rating.severity = 9;
    expect("decide-marked", Urgency::today);
}

TEST_F(Reasons, NothingPressesIsNeverSaidBesideSomethingElse) {
    EXPECT_EQ(
        std::ranges::count(next_acts(record_, course(), ground(), kNow), NextAct::Act::none, &NextAct::act),
        0)
        << "the baseline is still open";
    record_.baseline = {"b1", stamp(kToday), Baseline{}};
    record_.risks = {"k1", stamp(kToday), RiskScreen{}};
    record_.papers.push_back({"q1", stamp(kToday), PaperIssued{"schedule", "", "p1", kToday, kToday}});
    EXPECT_EQ(next_acts(record_, course(), ground(), kNow).size(), 1u);
}

TEST_F(Reasons, AScheduleFromBeforeAHoldIsNoPaperOfWhatHoldsNow) {
    const auto unprinted = [&] {
        return std::ranges::count(next_acts(record_, course(), ground(), kNow), NextAct::Act::print_schedule,
                                  &NextAct::act) > 0;
    };
    const auto print = [&](const char* id) {
        record_.papers.push_back({id, later(), PaperIssued{"schedule", "", "p1", kToday, kToday + days(20)}});
    };
    EXPECT_TRUE(unprinted());
    print("q1");
    EXPECT_FALSE(unprinted());
    record_.holds.push_back({"h1", later(), HoldStarted{kToday, kToday + days(14), "a hard week"}});
    EXPECT_TRUE(unprinted()) << "the sheet at home still tells the next step";
    print("q2");
    EXPECT_FALSE(unprinted());
}

TEST_F(Reasons, AScheduleAtHomeIsTakenBackWhenItsPlanHasEnded) {
    const auto left_behind = [&] {
        return std::ranges::any_of(next_acts(record_, course(), ground(), kNow), [](const NextAct& each) {
            return each.why.rule == "schedule-left-behind";
        });
    };
    record_.papers.push_back({"q1", later(), PaperIssued{"schedule", "", "p1", kToday, kToday + days(20)}});
    EXPECT_FALSE(left_behind());
    record_.plan_ended = {"e1", later(), PlanEnded{kToday, "stays at this dose"}};
    EXPECT_TRUE(left_behind());
    record_.papers.back().value.valid_through = kToday - days(1);
    EXPECT_FALSE(left_behind()) << "it says itself that it holds no more";
}

TEST(DangerQuestions, AreTheRulesAndBeginWithWhatIsHardestToBringUp) {
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    const auto questions = danger_questions(rules);
    EXPECT_EQ(questions.size(), 13u);
    EXPECT_EQ(questions.front(), "suicidal thoughts");
    for (const std::string& question : questions) EXPECT_FALSE(danger_rule(question, rules).empty());
    EXPECT_EQ(danger_rule("work", rules), "");
}

}  // namespace
}  // namespace evenfall
