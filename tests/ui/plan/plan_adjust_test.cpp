// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QCheckBox>

#include "plan/adjust_dialog.h"
#include "plan/plan_preview.h"
#include "ui/acceptance/hands.h"
#include "ui/plan/plan_page_fixture.h"
#include "ui/support/walk.h"

// Adjusting a plan on the way: previewed with its reason before it is put on the table, undone, and written
// with the signature.

namespace evenfall::ui {
namespace {

using std::chrono::days;

class PlanAdjustTest : public PlanPageTest {
  protected:
    void open_signed(const char* target = "8", const char* cap = "10") {
        open();
        type_into("Target, share of the current dose, percent", target);
        type_into("Cap, share of the current dose, percent", cap);
        sign();
        ASSERT_EQ(record().plans.size(), 1U);
        on_day(sample::kToday + days(3));
    }
    const PatientRecord& record() { return *bench_->bench->record(); }
    const Plan& plan() { return *page_->plan(); }

    /// Chooses an adjustment, does `fill` in its dialog, gives a reason and puts it on the table.
    void adjust(const char* item, const std::function<void(AdjustDialog&)>& fill) {
        Dialogs dialogs;
        dialogs.expect([&](QDialog& opened) {
            auto& dialog = dynamic_cast<AdjustDialog&>(opened);
            EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
            auto* commit = find_named<QAbstractButton>(dialog, QStringLiteral("Put it on the table"));
            EXPECT_FALSE(commit->isEnabled());
            fill(dialog);
            ASSERT_TRUE(computed(dialog));
            EXPECT_FALSE(commit->isEnabled()) << "a reason is needed";
            type_words(dialog, "Reason", "Sleep is poor since the cut.");
            ASSERT_TRUE(commit->isEnabled()) << words_of(dialog);
            EXPECT_NE(words_of(dialog).find("As adjusted: "), std::string::npos) << words_of(dialog);
            press(dialog, "Put it on the table");
        });
        for (QAction* each : page_->findChildren<QAction*>())
            if (each->text() == QString::fromUtf8(item)) {
                ASSERT_TRUE(each->isEnabled()) << each->toolTip().toStdString();
                each->trigger();
            }
        PlanPageTest::settle();
        ASSERT_TRUE(page_->plan());
    }
    static bool computed(AdjustDialog& dialog) {
        return QTest::qWaitFor([&] { return !dialog.computing(); }, 20'000);
    }
    /// What the signature wrote beside the plan.
    std::string note() { return record().notes.empty() ? "" : record().notes.back().value.text; }
};

TEST_F(PlanAdjustTest, SlowingDownIsPreviewedUndoneAndWrittenWithItsReason) {
    open_signed();
    const Plan before = plan();
    adjust("Slow down…", [](AdjustDialog& dialog) {
        type_in(dialog, "Length of a step, days", "7");
        EXPECT_NE(words_of(dialog).find("That is not slower than now"), std::string::npos);
        type_in(dialog, "Length of a step, days", "28");
        type_in(dialog, "Target, share of the current dose, percent", "5");
    });
    EXPECT_EQ(plan().request.days_per_step, 28);
    EXPECT_EQ(plan().request.target, Share::percent(5));
    EXPECT_EQ(plan().steps[1], before.steps[1]) << "what is signed stays";
    EXPECT_GT(plan().steps.back().starts, before.steps.back().starts);
    EXPECT_NE(words_of(*page_).find("Sleep is poor since the cut."), std::string::npos);
    page_->undo_stack()->undo();
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps, before.steps);
    EXPECT_EQ(words_of(*page_).find("Sleep is poor since the cut."), std::string::npos);
    page_->undo_stack()->redo();
    PlanPageTest::settle();
    EXPECT_TRUE(record().notes.empty()) << "nothing is written by adjusting";
    sign();
    ASSERT_EQ(record().plans.size(), 2U);
    EXPECT_EQ(note(),
              "Slower pace, 5 % every 28 days instead of 8 % every 14. Reason: Sleep is poor since "
              "the cut.");
}

TEST_F(PlanAdjustTest, OnlyTheNextCutIsSmaller) {
    open_signed("10", "15");
    ASSERT_EQ(page_->steps().standing().signed_steps, 2);
    const Share before = plan().steps[2].percent_of_last;
    ASSERT_GT(before, Share::percent(8));
    adjust("Smaller next cut…", [](AdjustDialog& dialog) {
        type_in(dialog, "Next cut, share of the current dose, percent", "12");
        ASSERT_TRUE(computed(dialog));
        EXPECT_NE(words_of(dialog).find("12 %"), std::string::npos) << words_of(dialog);
        type_in(dialog, "Next cut, share of the current dose, percent", "4");
    });
    EXPECT_LT(plan().steps[2].percent_of_last, Share::percent(7));
    EXPECT_EQ(plan().request.target, Share::percent(10)) << "after it the target holds again";
    sign();
    EXPECT_EQ(note().substr(0, 22), "Smaller next cut, 4 %.");
}

TEST_F(PlanAdjustTest, TheNextStepComesLaterAndAllThatFollowsMovesAlong) {
    open_signed();
    const Plan before = plan();
    adjust("Next step earlier or later…", [&](AdjustDialog& dialog) {
        type_in(dialog, "Next reduction on, year-month-day",
                print_day(before.steps[2].starts + days(7)).c_str());
    });
    EXPECT_EQ(plan().steps[2].starts, before.steps[2].starts + days(7));
    EXPECT_EQ(plan().steps[3].starts, before.steps[3].starts + days(7));
    EXPECT_EQ(plan().steps[1].starts, before.steps[1].starts);
    EXPECT_EQ(plan().steps[1].doses, before.steps[1].doses);
}

TEST_F(PlanAdjustTest, OtherProductsTakeOverFromTheNextStep) {
    open_signed();
    const Plan before = plan();
    adjust("Other products…", [](AdjustDialog& dialog) {
        for (QCheckBox* box : dialog.findChildren<QCheckBox*>())
            if (box->accessibleName().contains(QLatin1String("0.125 mg"))) box->click();
    });
    EXPECT_EQ(plan().products.size(), 1U);
    EXPECT_EQ(plan().steps[1].doses, before.steps[1].doses);
    sign();
    EXPECT_EQ(note().substr(0, 47), "Other products: clonazepam 0.5 mg tablet. Reaso");
}

TEST_F(PlanAdjustTest, ALowerDoseThatIsKeptIsAnEnd) {
    open_signed();
    adjust("Down to a maintenance dose…", [](AdjustDialog& dialog) {
        type_in(dialog, "Maintenance dose a day, milligrams", "9");
        ASSERT_TRUE(computed(dialog));
        EXPECT_FALSE(find_named<QAbstractButton>(dialog, QStringLiteral("Put it on the table"))->isEnabled());
        type_in(dialog, "Maintenance dose a day, milligrams", "1.25");
    });
    EXPECT_EQ(plan().steps.back().daily, Dose::micrograms(1250));
}

TEST_F(PlanAdjustTest, AfterAStopInHospitalThePlanBeginsFromWhatIsTakenNow) {
    open_signed();
    adjust("After missed doses or a stop in hospital…", [](AdjustDialog& dialog) {
        type_in(dialog, "Days without it, days", "9");
        EXPECT_NE(words_of(dialog).find("9 days without clonazepam"), std::string::npos) << words_of(dialog);
        type_in(dialog, "Dose at 21:00, milligrams", "0.5");
    });
    EXPECT_EQ(daily_amount(plan().start, "clonazepam"), Dose::micrograms(1500));
    EXPECT_EQ(plan().steps[0].starts, bench_->today + days(14)) << "no sooner than one interval";
    EXPECT_LT(plan().steps[0].daily, Dose::micrograms(1500));
    sign();
    ASSERT_EQ(record().plans.size(), 2U);
    EXPECT_EQ(record().regimens.back().value.regimen.from, bench_->today);
    EXPECT_EQ(bench_->bench->course().daily_today, Dose::micrograms(1500));
    EXPECT_NE(note().find("after 9 days without"), std::string::npos) << note();
}

TEST_F(PlanAdjustTest, AStepIsDraggedOnTheChartAndASignedOneIsNot) {
    open_signed();
    PlanPreview* chart = page_->preview();
    EXPECT_FALSE(chart->riser_of(1)) << "signed steps never move";
    const Plan before = plan();
    const QPointF from = *chart->riser_of(2), next = *chart->riser_of(3);
    const double per_day = (next.x() - from.x()) /
                           static_cast<double>((before.steps[3].starts - before.steps[2].starts).count());
    const auto drag = [&](double by_days) {
        const QPoint to = (from + QPointF(per_day * by_days, 0)).toPoint();
        QTest::mousePress(chart, Qt::LeftButton, {}, from.toPoint());
        QTest::mouseMove(chart, (from.toPoint() + to) / 2);
        QTest::mouseMove(chart, to);
        return to;
    };
    drag(20);
    EXPECT_EQ(plan().steps, before.steps) << "nothing moves before the button is let go";
    QTest::keyClick(chart, Qt::Key_Escape);
    QTest::mouseRelease(chart, Qt::LeftButton, {}, from.toPoint());
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps, before.steps) << "Escape lets it go";
    const QPoint to = drag(20);
    QTest::mouseRelease(chart, Qt::LeftButton, {}, to);
    PlanPageTest::settle();
    const auto moved = (plan().steps[2].starts - before.steps[2].starts).count();
    EXPECT_NEAR(static_cast<double>(moved), 20, 1 / per_day + 1);
    EXPECT_EQ(plan().steps[3].starts - before.steps[3].starts, days(moved));
    EXPECT_EQ(plan().steps[1].starts, before.steps[1].starts);
    EXPECT_EQ(page_->table()->currentIndex().row(), 2) << "the table goes along";
    page_->undo_stack()->undo();
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps, before.steps);
    const QPoint back = drag(-400);
    QTest::mouseRelease(chart, Qt::LeftButton, {}, back);
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps[2].starts, before.steps[1].starts + days(1)) << "never before the step before it";
}

TEST_F(PlanAdjustTest, TheChartIsMovedByTheSameKeysAsTheTable) {
    open_signed();
    PlanPreview* chart = page_->preview();
    const Plan before = plan();
    page_->table()->setCurrentIndex(page_->steps().index(2, 0));
    chart->setFocus();
    QTest::keyClick(chart, Qt::Key_Right);
    EXPECT_EQ(page_->table()->currentIndex().row(), 3);
    QTest::keyClick(chart, Qt::Key_Plus, Qt::ControlModifier);
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps[3].starts, before.steps[3].starts + days(7));
    QTest::keyClick(chart, Qt::Key_Minus);
    PlanPageTest::settle();
    EXPECT_EQ(plan().steps[3].starts, before.steps[3].starts + days(6));
}

TEST_F(PlanAdjustTest, WhatAPlanCostsIsComparedAndSaidForEachFill) {
    open();
    const std::vector<Product> products = Bench::products();
    bench_->bench->carry_out_for_clinic({PriceSet{products[0], "0.12"}, CurrencySet{"crowns"}});
    page_->refresh();
    PlanPageTest::settle();
    plan_8_of_10();
    press(*page_, "Keep to compare");
    EXPECT_NE(words_of(*page_).find("no price for clonazepam 0.125 mg"), std::string::npos)
        << words_of(*page_);
    press(*page_, "Let go of plan A");
    bench_->bench->carry_out_for_clinic({PriceSet{products[1], "0.5"}});
    page_->refresh();
    PlanPageTest::settle();
    press(*page_, "Keep to compare");
    ASSERT_TRUE(page_->variants()[0].figures.cost);
    const std::string sum = print_cost(*page_->variants()[0].figures.cost) + " crowns";
    EXPECT_NE(words_of(*page_).find(sum), std::string::npos) << words_of(*page_);
    Dialogs dialogs;
    dialogs.expect([](QDialog& dialog) {
        EXPECT_NE(words_of(dialog).find("cost: "), std::string::npos) << words_of(dialog);
        EXPECT_NE(words_of(dialog).find(" crowns"), std::string::npos);
        press(dialog, "Close");
    });
    for (QAction* item : page_->findChildren<QAction*>())
        if (item->text() == QString::fromUtf8("Supply for these steps…")) item->trigger();
}

}  // namespace
}  // namespace evenfall::ui
