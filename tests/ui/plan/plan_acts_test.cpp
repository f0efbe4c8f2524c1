// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QMenu>

#include "plan/crossover_dialog.h"
#include "plan/schedule_dialog.h"
#include "ui/acceptance/hands.h"
#include "ui/plan/plan_page_fixture.h"
#include "ui/support/walk.h"

// The other decisions on a plan, by the keyboard, through the dialogs that ask for them.

namespace evenfall::ui {
namespace {

using std::chrono::days;

class PlanActsTest : public PlanPageTest {
  protected:
    void open_signed() {
        open();
        plan_8_of_10();
        sign();
        ASSERT_EQ(record().plans.size(), 1U);
    }
    const PatientRecord& record() { return *bench_->bench->record(); }
    Dose today() { return bench_->bench->course().daily_today; }

    void choose_item(const char* text) {
        for (QAction* item : page_->findChildren<QAction*>())
            if (item->text() == QString::fromUtf8(text)) {
                ASSERT_TRUE(item->isEnabled()) << item->toolTip().toStdString();
                return item->trigger();
            }
        FAIL() << "no item " << text;
    }
};

TEST_F(PlanActsTest, AHoldIsAskedForWithItsConsequenceAndStopsTheStepsToCome) {
    open_signed();
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("until a new plan is signed"), std::string::npos);
        EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
        EXPECT_EQ(find_named<QLineEdit>(dialog, QStringLiteral("Review the hold on, year-month-day"))->text(),
                  QStringLiteral("2026-12-08"));
        type_in(dialog, "Hold from, year-month-day", "2026-11-26");
        EXPECT_EQ(find_named<QLineEdit>(dialog, QStringLiteral("Review the hold on, year-month-day"))->text(),
                  QStringLiteral("2026-12-10"));
        EXPECT_FALSE(find_named<QAbstractButton>(dialog, QStringLiteral("Hold the dose"))->isEnabled());
        type_words(dialog, "Reason", "Sleep is poor since the cut.");
        press(dialog, "Hold the dose");
    });
    press(*page_, "Hold the dose…");
    ASSERT_EQ(record().holds.size(), 1U);
    EXPECT_EQ(record().holds[0].value.review_on, sample::kToday + days(16));
    on_day(sample::kToday + days(30));
    EXPECT_TRUE(bench_->bench->course().on_hold);
    EXPECT_EQ(today(), Dose::micrograms(2375)) << "the second signed step did not begin";
    EXPECT_EQ(page_->sign_button()->text().toStdString(), "Sign the next 2 steps");
}

TEST_F(PlanActsTest, AHoldThatRunsIsHeldLongerFromItsOwnFirstDay) {
    open_signed();
    const Day first = sample::kToday + days(3);
    bench_->bench->carry_out({HoldStarted{first, sample::kToday + days(17), "sleep is poor"}});
    on_day(sample::kToday + days(17));
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        type_words(dialog, "Reason", "Sleep is still poor.");
        press(dialog, "Hold longer");
    });
    press(*page_, "Hold longer…");
    ASSERT_EQ(record().holds.size(), 2U);
    EXPECT_EQ(record().holds[1].value.from, first);
    EXPECT_EQ(record().holds[1].value.review_on, sample::kToday + days(31));
    ASSERT_TRUE(bench_->bench->course().on_hold);
}

TEST_F(PlanActsTest, GoingOnBuildsTheStepsAnewAndOnlyASignatureEndsTheHold) {
    open_signed();
    bench_->bench->carry_out(
        {HoldStarted{sample::kToday + days(3), sample::kToday + days(17), "sleep is poor"}});
    on_day(sample::kToday + days(17));
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        type_in(dialog, "Next reduction on, year-month-day", "2026-12-14");
        press(dialog, "Build the steps");
    });
    press(*page_, "Go on…");
    PlanPageTest::settle();
    EXPECT_TRUE(bench_->bench->course().on_hold) << "nothing is written by going on";
    ASSERT_TRUE(page_->plan());
    EXPECT_EQ(page_->plan()->steps[1].starts, day_at(2026, 12, 14));
    sign();
    EXPECT_EQ(record().holds_ended.size(), 1U);
    EXPECT_FALSE(bench_->bench->course().on_hold);
    on_day(day_at(2026, 12, 14));
    EXPECT_EQ(today(), Dose::micrograms(2250));
}

TEST_F(PlanActsTest, StayingEndsThePlanAndKeepsTheDose) {
    open_signed();
    on_day(sample::kToday + days(3));
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("Stay at 2.375 mg a day of clonazepam?"), std::string::npos);
        type_words(dialog, "Reason", "She wants to stay here.");
        press(dialog, "Stay at this dose");
    });
    choose_item("Stay at this dose…");
    ASSERT_TRUE(record().plan_ended);
    on_day(sample::kToday + days(60));
    EXPECT_EQ(today(), Dose::micrograms(2375));
    ASSERT_TRUE(page_->plan()) << "a new taper can be planned from the maintenance dose";
    EXPECT_EQ(daily_amount(page_->plan()->start, "clonazepam"), Dose::micrograms(2375));
}

TEST_F(PlanActsTest, LeavingAQuestionWritesNothing) {
    open_signed();
    Dialogs dialogs;
    for (int i = 0; i < 2; ++i)
        dialogs.expect([](QDialog& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); });
    press(*page_, "Hold the dose…");
    choose_item("End the plan…");
    EXPECT_TRUE(record().holds.empty());
    EXPECT_FALSE(record().plan_ended);
}

TEST_F(PlanActsTest, GoingBackUpIsSignedOnItsOwnWithItsCostsAndAReason) {
    open_signed();
    on_day(sample::kToday + days(5));
    std::vector<Objection> stood_against;
    page_->ask_to_sign = [&](const SignRequest& request) {
        stood_against = request.objections;
        EXPECT_EQ(request.lines.size(), 1U);
        return std::optional(reasons_for_all(request));
    };
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("it may not bring relief"), std::string::npos) << words_of(dialog);
        EXPECT_FALSE(find_named<QAbstractButton>(dialog, QStringLiteral("Sign going back up…"))->isEnabled());
        type_in(dialog, "Dose at 21:00, milligrams", "1.5");
        press(dialog, "Sign going back up…");
    });
    choose_item("Go back up…");
    PlanPageTest::settle();
    ASSERT_EQ(stood_against.size(), 1U);
    EXPECT_EQ(stood_against[0].flag.rule, "going-back-up");
    ASSERT_EQ(record().plans.size(), 2U);
    EXPECT_EQ(today(), Dose::micrograms(2500));
    EXPECT_EQ(record().plans[1].value.plan.steps[0].daily, Dose::micrograms(2375))
        << "the step that was taken stays";
}

TEST_F(PlanActsTest, AStepSetByHandIsHeldToTheRulesAndTheRestIsPlannedFromIt) {
    open();
    plan_8_of_10();
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
        type_in(dialog, "Dose at 21:00, milligrams", "1.3");
        EXPECT_NE(words_of(dialog).find("1.25 mg and 1.375 mg"), std::string::npos) << words_of(dialog);
        EXPECT_FALSE(find_named<QAbstractButton>(dialog, QStringLiteral("Set it so"))->isEnabled());
        type_in(dialog, "Dose at 21:00, milligrams", "1");
        EXPECT_NE(words_of(dialog).find("the cap is 10 %"), std::string::npos) << words_of(dialog);
        press(dialog, "Set it so");
    });
    page_->table()->setCurrentIndex(page_->steps().index(1, 0));
    QTest::keyClick(page_->table(), Qt::Key_F2);
    PlanPageTest::settle();
    ASSERT_TRUE(page_->plan());
    EXPECT_EQ(page_->plan()->steps[1].daily, Dose::milligrams(2));
    EXPECT_LT(page_->plan()->steps[2].daily, Dose::milligrams(2));
    EXPECT_NE(page_->steps().status_text(1).indexOf(QLatin1String("by hand")), -1);
    page_->undo_stack()->undo();
    PlanPageTest::settle();
    EXPECT_EQ(page_->plan()->steps[1].daily, Dose::micrograms(2250));
}

TEST_F(PlanActsTest, AStepIsMovedInTimeByKeysAndThoseAfterItFollow) {
    open();
    plan_8_of_10();
    const Day second = page_->plan()->steps[1].starts, third = page_->plan()->steps[2].starts;
    page_->table()->setCurrentIndex(page_->steps().index(1, 0));
    QTest::keyClick(page_->table(), Qt::Key_Plus);
    PlanPageTest::settle();
    QTest::keyClick(page_->table(), Qt::Key_Plus, Qt::ControlModifier);
    PlanPageTest::settle();
    EXPECT_EQ(page_->plan()->steps[1].starts, second + days(8));
    EXPECT_EQ(page_->plan()->steps[2].starts, third + days(8));
    QTest::keyClick(page_->table(), Qt::Key_Minus);
    PlanPageTest::settle();
    EXPECT_EQ(page_->plan()->steps[1].starts, second + days(7));
}

TEST_F(PlanActsTest, UpToFourPlansStandSideBySideAndOneIsTakenBack) {
    open();
    plan_8_of_10();
    for (const char* target : {"7", "6", "5"}) {
        press(*page_, "Keep to compare");
        type_into("Target, share of the current dose, percent", target);
    }
    ASSERT_EQ(page_->variants().size(), 3U);
    EXPECT_FALSE(find_named<QAbstractButton>(*page_, QStringLiteral("Keep to compare"))->isEnabled());
    EXPECT_GT(page_->variants()[0].figures.units_cut, 0);
    EXPECT_TRUE(page_->variants()[0].figures.hardest_week.has_value());
    press(*page_, "Use plan A");
    PlanPageTest::settle();
    EXPECT_EQ(page_->plan()->request.target, Share::percent(8));
    press(*page_, "Let go of plan B");
    EXPECT_EQ(page_->variants().size(), 2U);
}

TEST_F(PlanActsTest, AScheduleMadeElsewhereIsJudgedByRowAndItsFirstStepsAreTakenOver) {
    open();
    page_->ask_to_sign = [](const SignRequest& request) {
        EXPECT_FALSE(request.objections.empty()) << "20 % at once takes a reason";
        return std::optional(reasons_for_all(request));
    };
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
        type_words(dialog, "Schedule", "2026-12-01; 08:00 1 mg clonazepan");
        EXPECT_NE(words_of(dialog).find("clonazepam"), std::string::npos) << words_of(dialog);
        auto* text = find_named<QPlainTextEdit>(dialog, QStringLiteral("Schedule"));
        text->setPlainText(
            QStringLiteral("2026-11-24; 08:00 1 mg clonazepam, 21:00 1.5 mg clonazepam\n"
                           "2026-12-01; 08:00 1 mg clonazepam, 21:00 1 mg clonazepam\n"
                           "2026-12-29; 08:00 1 mg clonazepam, 21:00 0.75 mg clonazepam\n"));
        EXPECT_NE(words_of(dialog).find("This cut is 20 % of the current dose"), std::string::npos)
            << words_of(dialog);
        press(dialog, "Take it over and sign…");
    });
    choose_item("Judge a schedule made elsewhere…");
    ASSERT_EQ(record().plans.size(), 1U);
    const Plan& plan = record().plans[0].value.plan;
    EXPECT_EQ(plan.steps[0].daily, Dose::milligrams(2));
    EXPECT_EQ(plan.steps[0].status, StepStatus::committed);
    EXPECT_EQ(plan.steps[1].status, StepStatus::outlook);
    EXPECT_FALSE(record().plans[0].value.overrides.empty());
}

TEST_F(PlanActsTest, SupplySaysWhatToDispenseAndUntilWhenItCoversAHold) {
    open();
    plan_8_of_10();
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("clonazepam 0.5 mg tablet"), std::string::npos);
        EXPECT_NE(words_of(dialog).find("covers holding the dose until"), std::string::npos);
        press(dialog, "Close");
    });
    choose_item("Supply for these steps…");
}

TEST_F(PlanActsTest, ANurseSeesWhyTheDecisionsAreNotHers) {
    open(Role::nurse);
    auto* hold = find_named<QAbstractButton>(*page_, QStringLiteral("Hold the dose…"));
    ASSERT_NE(hold, nullptr);
    EXPECT_FALSE(hold->isEnabled());
    EXPECT_TRUE(hold->toolTip().contains(QLatin1String("prescriber")));
}

TEST_F(PlanActsTest, TheTableOpensAtTheStepInForce) {
    open_signed();
    on_day(sample::kToday + days(15));
    page_ = std::make_unique<PlanPage>(*bench_->bench);
    page_->resize(900, 700);
    page_->show();
    PlanPageTest::settle();
    EXPECT_EQ(page_->table()->currentIndex().row(), 1);
    EXPECT_EQ(page_->steps().status_text(1).toStdString(), "in force");
    EXPECT_EQ(page_->steps().status_text(2).toStdString(), "to sign");
}

}  // namespace
}  // namespace evenfall::ui
