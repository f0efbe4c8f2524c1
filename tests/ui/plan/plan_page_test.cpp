// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_page.h"

#include <QAbstractItemModelTester>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>

#include "controls/why.h"
#include "ui/plan/plan_page_fixture.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

TEST_F(PlanPageTest, TheWorkedCaseBeginsWithTheSmallestCutThatThePiecesMake) {
    open();
    plan_8_of_10();
    ASSERT_TRUE(page_->plan());
    const Step& first = page_->plan()->steps.front();
    EXPECT_EQ(first.daily, Dose::micrograms(2375));
    EXPECT_EQ(first.percent_of_last, Share::percent(5));
    EXPECT_EQ(first.starts, sample::kToday);
    EXPECT_EQ(page_->plan()->steps[1].status, StepStatus::committed);
    EXPECT_EQ(page_->plan()->steps[2].status, StepStatus::outlook);
    EXPECT_TRUE(page_->plan()->steps.back().daily.is_zero());
    EXPECT_TRUE(page_->summary().contains(QLatin1String("OFF on")));
    EXPECT_FALSE(page_->plan()->floor.says.empty());
}

TEST_F(PlanPageTest, EveryCellSaysItsWholeContent) {
    open();
    plan_8_of_10();
    const StepsModel& model = page_->steps();
    ASSERT_GT(model.rowCount(), 5);
    for (int row = 0; row < model.rowCount(); ++row)
        for (int column = 0; column < StepsModel::flags_column; ++column)
            EXPECT_FALSE(model.index(row, column).data(Qt::AccessibleTextRole).toString().isEmpty());
    EXPECT_EQ(model.index(0, StepsModel::daily_column).data().toString().toStdString(),
              "2.375 mg a day, 5 % of the last dose");
    const QString pieces = model.index(0, StepsModel::pieces_column).data().toString();
    EXPECT_TRUE(pieces.contains(QLatin1String("08:00: "))) << pieces.toStdString();
    EXPECT_TRUE(pieces.contains(QLatin1String("21:00: ")));
}

TEST_F(PlanPageTest, TheModelKeepsItsContractWhilePlansComeAndGo) {
    open();
    auto* model = const_cast<StepsModel*>(&page_->steps());
    QAbstractItemModelTester tester(model, QAbstractItemModelTester::FailureReportingMode::Fatal);
    plan_8_of_10();
    EXPECT_GT(model->rowCount(), 0);
}

TEST_F(PlanPageTest, AFieldThatCannotBeReadLeavesNoStepsToSign) {
    open();
    type_into("Target, share of the current dose, percent", "abc");
    EXPECT_FALSE(page_->plan());
    EXPECT_EQ(page_->steps().rowCount(), 0);
    EXPECT_FALSE(page_->sign_button()->isEnabled());
    EXPECT_FALSE(field("Target, share of the current dose, percent")->fault().isEmpty());
}

TEST_F(PlanPageTest, ATargetOverTheCapIsSaidAtItsField) {
    open();
    type_into("Target, share of the current dose, percent", "20");
    EXPECT_FALSE(page_->plan());
    EXPECT_TRUE(field("Target, share of the current dose, percent")->fault().contains(QLatin1String("cap")));
}

TEST_F(PlanPageTest, NumbersThatCannotBePlannedAreSaidAtTheirFieldsWithTheRemedy) {
    open();
    const struct {
        const char *name, *text, *says;
    } bad[] = {{"Target, share of the current dose, percent", "0", "more than 0 % and less than 100 %"},
               {"Target, share of the current dose, percent", "100", "more than 0 % and less than 100 %"},
               {"Cap, share of the current dose, percent", "0", "more than 0 % and less than 100 %"},
               {"Length of a step, days", "0", "1"},
               {"Length of a step, days", "1000", "365"},
               {"Steps to sign, steps", "0", "1"}};
    for (const auto& each : bad) {
        const QString before = field(each.name)->typed();
        type_into(each.name, each.text);
        EXPECT_FALSE(page_->plan()) << each.name << " " << each.text;
        EXPECT_TRUE(field(each.name)->fault().contains(QLatin1String(each.says)))
            << each.name << " " << each.text << ": " << field(each.name)->fault().toStdString();
        type_into(each.name, before.toUtf8().constData());
        EXPECT_TRUE(page_->plan()) << each.name;
    }
}

TEST_F(PlanPageTest, ACapBelowTheSmallestCutIsSaidAtItsFieldAndThePlanStands) {
    open();
    type_into("Target, share of the current dose, percent", "1");
    type_into("Cap, share of the current dose, percent", "1");
    ASSERT_TRUE(page_->plan());
    const QString says = field("Cap, share of the current dose, percent")->fault();
    EXPECT_TRUE(says.contains(QLatin1String("cannot be kept"))) << says.toStdString();
}

TEST_F(PlanPageTest, TheProductThatWouldMoveTheFloorIsAddedFromWhereItIsNamed) {
    open();
    for (auto* box : page_->findChildren<QCheckBox*>())
        if (box->accessibleName().startsWith(QLatin1String("Use 0.125"))) box->setChecked(false);
    for (auto* cuts : page_->findChildren<QComboBox*>())
        if (cuts->accessibleName() == QLatin1String("Finest piece of 0.5 mg tablet"))
            cuts->setCurrentIndex(1);
    settle();
    ASSERT_TRUE(page_->plan() && page_->plan()->floor.amount);
    QTest::qWait(20);  // what was made is laid out a moment later
    const Dose before = *page_->plan()->floor.amount;
    QPushButton* add = nullptr;
    for (auto* button : page_->findChildren<QPushButton*>())
        if (button->isVisible() && button->accessibleName().startsWith(QLatin1String("Add clonazepam")))
            add = button;
    ASSERT_NE(add, nullptr);
    add->click();
    settle();
    ASSERT_TRUE(page_->plan());
    EXPECT_TRUE(!page_->plan()->floor.amount || *page_->plan()->floor.amount < before);
}

TEST_F(PlanPageTest, UndoTakesBackTheTypingOfOneFieldAtOnce) {
    open();
    type_into("Target, share of the current dose, percent", "8");
    type_into("Length of a step, days", "21");
    page_->undo_stack()->undo();
    settle();
    EXPECT_EQ(field("Length of a step, days")->typed(), QLatin1String("14"));
    EXPECT_EQ(field("Target, share of the current dose, percent")->typed(), QLatin1String("8"));
    page_->undo_stack()->undo();
    settle();
    EXPECT_EQ(field("Target, share of the current dose, percent")->typed(), QLatin1String("10"));
    page_->undo_stack()->redo();
    page_->undo_stack()->redo();
    settle();
    EXPECT_EQ(page_->plan()->request.days_per_step, 21);
}

TEST_F(PlanPageTest, SigningAsksWithItsConsequenceAndWritesThePlan) {
    open();
    plan_8_of_10();
    QString asked;
    page_->ask_to_sign = [&](const SignRequest& request) {
        asked = request.question + QLatin1Char(' ') + request.consequence;
        return std::optional(reasons_for_all(request));
    };
    ASSERT_TRUE(page_->sign_button()->isEnabled());
    EXPECT_EQ(page_->sign_button()->text().toStdString(), "Sign the first 2 steps");
    page_->sign_button()->click();
    EXPECT_TRUE(asked.contains(QLatin1String("2.375 mg a day of clonazepam"))) << asked.toStdString();
    ASSERT_EQ(bench_->bench->record()->plans.size(), 1u);
    EXPECT_EQ(bench_->bench->record()->plans[0].value.plan.steps[0].daily, Dose::micrograms(2375));
}

TEST_F(PlanPageTest, ASecondSignatureReplacesTheFirstAndKeepsWhatWasSigned) {
    open();
    plan_8_of_10();
    page_->ask_to_sign = [](const SignRequest& request) { return std::optional(reasons_for_all(request)); };
    page_->sign_button()->click();
    const auto first = bench_->bench->record()->plans[0];
    bench_->today = sample::kToday + std::chrono::days(20);
    page_->refresh();
    settle();
    EXPECT_EQ(page_->sign_button()->text().toStdString(), "Sign the next 2 steps");
    page_->sign_button()->click();
    ASSERT_EQ(bench_->bench->record()->plans.size(), 2u);
    const auto& second = bench_->bench->record()->plans[1].value;
    EXPECT_EQ(second.replaces, first.id);
    EXPECT_EQ(second.plan.steps[0], first.value.plan.steps[0]);
    EXPECT_EQ(second.plan.steps[1].daily, first.value.plan.steps[1].daily);
    EXPECT_EQ(second.plan.steps[3].status, StepStatus::committed);
    EXPECT_EQ(second.plan.steps[4].status, StepStatus::outlook);
}

TEST_F(PlanPageTest, LeavingTheQuestionSignsNothing) {
    open();
    page_->ask_to_sign = [](const SignRequest&) { return std::optional<std::vector<Override>>(); };
    page_->sign_button()->click();
    EXPECT_TRUE(bench_->bench->record()->plans.empty());
}

TEST_F(PlanPageTest, ANurseSeesTheStepsAndWhySheDoesNotSign) {
    open(Role::nurse);
    EXPECT_GT(page_->steps().rowCount(), 0);
    EXPECT_FALSE(page_->sign_button()->isEnabled());
    EXPECT_TRUE(page_->sign_button()->toolTip().contains(QLatin1String("prescriber")));
}

TEST_F(PlanPageTest, WithoutARegimenThePageSaysHowToBegin) {
    open(Role::prescriber, false);
    EXPECT_FALSE(page_->plan());
    EXPECT_FALSE(page_->table()->isVisible());
    QString wanted;
    QObject::connect(bench_->bench.get(), &Workbench::page_wanted,
                     [&](const QString& page) { wanted = page; });
    for (auto* button : page_->findChildren<QPushButton*>())
        if (button->isVisible() && button->text() == QLatin1String("Record what is taken")) button->click();
    EXPECT_EQ(wanted, QLatin1String("record"));
}

TEST_F(PlanPageTest, AnAmountThatNoPieceMakesIsAnsweredWithTheNearestOnes) {
    open();
    type_into("Last dose a day before OFF, milligrams", "0.3");
    EXPECT_FALSE(page_->plan());
    const QString says = field("Last dose a day before OFF, milligrams")->fault();
    EXPECT_TRUE(says.contains(QLatin1String("0.25 mg")) && says.contains(QLatin1String("0.375 mg")))
        << says.toStdString();
}

TEST_F(PlanPageTest, AStartThatTheProductsCannotMakeIsSaidUnderThemWithTheNearestAmounts) {
    open();
    for (auto* box : page_->findChildren<QCheckBox*>())
        if (box->accessibleName().startsWith(QLatin1String("Use ")))
            box->setChecked(box->text() == QLatin1String("2 mg tablet"));
    for (auto* cuts : page_->findChildren<QComboBox*>())
        if (cuts->accessibleName() == QLatin1String("Finest piece of 2 mg tablet")) cuts->setCurrentIndex(0);
    settle();
    EXPECT_FALSE(page_->plan());
    QString says;
    for (auto* label : page_->findChildren<QLabel*>())
        if (label->isVisible() && label->text().contains(QLatin1String("cannot be made")))
            says = label->text();
    EXPECT_TRUE(says.contains(QLatin1String("2 mg"))) << says.toStdString();
}

TEST_F(PlanPageTest, WhatWasTypedStaysWhenSomethingElseIsWrittenIntoTheRecord) {
    open();
    plan_8_of_10();
    bench_->bench->carry_out({NoteAdded{"Called, all well."}});
    settle();
    EXPECT_EQ(field("Target, share of the current dose, percent")->typed(), QLatin1String("8"));
    EXPECT_EQ(page_->plan()->request.target, Share::percent(8));
}

TEST_F(PlanPageTest, TheStepsNeverNeedScrollingSideways) {
    open();
    StepsTable& table = *page_->table();
    for (const int width : {660, 720, 1100}) {
        page_->resize(width, 620);
        QTest::qWait(20);
        int columns = 0;
        for (int i = 0; i < StepsModel::column_count; ++i) columns += table.columnWidth(i);
        EXPECT_LE(columns, table.viewport()->width()) << width;
        EXPECT_GE(table.columnWidth(StepsModel::pieces_column), 170) << width;
    }
    page_->resize(660, 620);
    QTest::qWait(20);
    ASSERT_TRUE(table.isColumnHidden(StepsModel::flags_column));
    int flagged = 0;
    while (flagged < page_->steps().rowCount() && page_->steps().flags(flagged).empty()) ++flagged;
    ASSERT_LT(flagged, page_->steps().rowCount());
    const QModelIndex pieces = page_->steps().index(flagged, StepsModel::pieces_column);
    EXPECT_NE(page_->steps().data(pieces, Qt::AccessibleTextRole).toString(),
              page_->steps().data(pieces, Qt::DisplayRole).toString())
        << "the rules are heard with the pieces";
    EXPECT_TRUE(page_->steps()
                    .data(page_->steps().index(0, StepsModel::step_column), Qt::AccessibleTextRole)
                    .toString()
                    .contains(QLatin1String("2.375 mg")))
        << "and the amount with the step";
    table.scrollTo(pieces);
    QTest::mouseClick(table.viewport(), Qt::LeftButton, {}, table.visualRect(pieces).center());
    auto* why = page_->findChild<Popover*>();
    ASSERT_NE(why, nullptr) << "the reasons open";
    why->close();
}

TEST_F(PlanPageTest, EveryControlHasANameAndNoWordIsCutOff) {
    open();
    EXPECT_EQ(nameless(*page_).join(QLatin1Char('\n')).toStdString(), "");
    // Wrapped words get their height one layout after their width.
    (void)QTest::qWaitFor([this] { return cut_off(*page_).isEmpty(); }, 3000);
    EXPECT_EQ(cut_off(*page_).join(QLatin1Char('\n')).toStdString(), "");
}

}  // namespace
}  // namespace evenfall::ui
