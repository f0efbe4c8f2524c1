// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/call_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QTest>
#include <algorithm>
#include <set>

#include <gtest/gtest.h>

#include "record/answer_choice.h"
#include "ui/support/invented_clinic.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

class CallPageTest : public testing::Test {
  protected:
    void SetUp() override {
        workbench = small_clinic(Role::nurse);
        jonas = workbench->desk().patients().front();
        for (const PatientId& each : workbench->desk().patients())
            if ((*workbench->desk().record(each))->person->value.name == "Jonas Hale") jonas = each;
        const Day today = workbench->today();
        ASSERT_TRUE(workbench->desk().carry_out(
            jonas,
            {ProductsChosen{{{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}}}},
             SymptomsNoted{{{at_clock(today - days(3), {600}), "anxiety", 4},
                            {at_clock(today - days(3), {600}), "poor sleep", 5}}},
             CheckIn{at_clock(today - days(3), {600}), {{"work", "2"}}, ""}},
            {}, workbench->now()));
        workbench->show_faults = [this](const Faults& faults) {
            for (const Fault& fault : faults) told.push_back(fault.id);
        };
        page = std::make_unique<CallPage>(*workbench);
        page->resize(840, 760);
        workbench->select(jonas);
        page->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    }
    const PatientRecord& record() { return **workbench->desk().record(jonas); }
    void key(Qt::Key code, Qt::KeyboardModifiers with = {}) {
        QTest::keyClick(QApplication::focusWidget(), code, with);
        ++keys;
    }
    void keys_of(const char* text) {
        for (const char* c = text; *c; ++c) {
            QTest::keyClick(QApplication::focusWidget(), *c);
            ++keys;
        }
    }
    QString focus() {
        return QApplication::focusWidget() ? QApplication::focusWidget()->accessibleName() : QString();
    }
    std::string words() {
        std::string all;
        for (const QLabel* label : page->findChildren<QLabel*>())
            if (label->isVisible()) all += label->text().toStdString() + "\n";
        return all;
    }

    std::unique_ptr<Workbench> workbench;
    std::unique_ptr<CallPage> page;
    PatientId jonas;
    std::vector<std::string> told;
    int keys = 0;
};

TEST_F(CallPageTest, AGoodWeekTakesFewKeysAndIsWrittenDownWhole) {
    ASSERT_TRUE(focus().startsWith(QStringLiteral("Days since the last call"))) << focus().toStdString();
    key(Qt::Key_P);
    keys_of("23");        // two symptoms
    key(Qt::Key_Return);  // sleep
    keys_of("nnnnnnnnnnnnn");
    keys_of("0018");  // work, home, company, confidence
    for (int line = 0; line < 4; ++line) key(Qt::Key_Return);
    keys_of("90");
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_LE(keys, 40);
    ASSERT_EQ(record().check_ins.size(), 2u) << words();
    const CheckIn& call = record().check_ins.back().value;
    EXPECT_EQ(std::ranges::count(call.answers, "no", [](const auto& each) { return each.second; }), 13);
    EXPECT_EQ(record().symptoms.back().value.entries.size(), 2u);
    EXPECT_EQ(record().supply.back().value.on_hand.front().quarters, 4 * 90);
    EXPECT_GE(record().intake.back().value.entries.size(), 6u);
    EXPECT_TRUE(told.empty());
    EXPECT_FALSE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
    EXPECT_NE(words().find("The call is saved."), std::string::npos);
}

TEST_F(CallPageTest, ADangerIsInTheRecordBeforeTheNextKeyAndStaysUntoldUntilWrittenDown) {
    key(Qt::Key_P);
    keys_of("23");
    key(Qt::Key_Return);
    keys_of("nny");  // the third: a seizure
    ASSERT_EQ(record().check_ins.size(), 2u);
    EXPECT_EQ(record().check_ins.back().value.answers.front().second, "yes");
    EXPECT_NE(words().find("Nobody has been told yet"), std::string::npos);
    EXPECT_EQ(focus(), QStringLiteral("Where is the person?"));
    keys_of("at home");
    key(Qt::Key_Tab);
    keys_of("Ida");
    key(Qt::Key_Tab);
    keys_of("555 0199");
    key(Qt::Key_Return);
    ASSERT_EQ(record().whereabouts.size(), 1u);
    EXPECT_EQ(record().whereabouts.front().value.with_whom, "Ida");
    EXPECT_NE(words().find("Nobody has been told yet"), std::string::npos);
    keys_of("Dr A.");
    key(Qt::Key_Tab);
    key(Qt::Key_Tab);
    key(Qt::Key_Return);
    EXPECT_TRUE(record().told.empty()) << "not without an answer";
    keys_of("sees him now");
    key(Qt::Key_Return);
    ASSERT_EQ(record().told.size(), 1u);
    EXPECT_EQ(words().find("Nobody has been told yet"), std::string::npos);
    EXPECT_TRUE(focus().contains(QStringLiteral("collapse"))) << focus().toStdString();
    keys_of("nnnnnnnnnn");
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_EQ(record().check_ins.back().value.answers.size(), 13u);
}

TEST_F(CallPageTest, AYesThatWasASlipIsTakenBackAndKeptInTheHistory) {
    key(Qt::Key_P);
    keys_of("23");
    key(Qt::Key_Return);
    keys_of("y");
    ASSERT_EQ(record().check_ins.size(), 2u);
    auto choices = page->findChildren<AnswerChoice*>();
    choices.front()->setFocus();
    keys_of("n");
    EXPECT_EQ(record().check_ins.size(), 1u);
    EXPECT_EQ(record().lines.back().kind, "entry-amended");
}

TEST_F(CallPageTest, ACallThatWasStoppedIsTakenUpAgain) {
    key(Qt::Key_P);
    keys_of("7");
    workbench->select(workbench->desk().patients().front() == jonas ? workbench->desk().patients().back()
                                                                    : workbench->desk().patients().front());
    page.reset();  // the window is closed
    page = std::make_unique<CallPage>(*workbench);
    page->resize(840, 760);
    workbench->select(jonas);
    page->show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    EXPECT_NE(words().find("Taken up again"), std::string::npos);
    EXPECT_TRUE(record().intake.empty()) << "nothing is in the record before it is saved";
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_EQ(record().check_ins.size(), 1u) << "the first press asks back: 13 questions are open";
    EXPECT_NE(words().find("Not asked is not a no"), std::string::npos);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(record().check_ins.size(), 2u);
    EXPECT_EQ(record().symptoms.back().value.entries.front().severity, 7);
}

TEST_F(CallPageTest, NothingTypedForOnePersonIsShownOrSavedForAnother) {
    const auto known = workbench->desk().patients();
    const PatientId other =
        *std::ranges::find_if(known, [this](const PatientId& each) { return each != jonas; });
    for (const PatientId& each : {jonas, other})
        ASSERT_TRUE(workbench->desk().carry_out(
            each, {CheckIn{workbench->now() - std::chrono::hours(1), {{"seizure", "yes"}}, ""}}, {},
            workbench->now()));
    page->refresh();
    for (QComboBox* each : page->findChildren<QComboBox*>())
        if (each->accessibleName() == QStringLiteral("Form")) each->setCurrentIndex(1);
    for (QLineEdit* line : page->findChildren<QLineEdit*>())
        if (!line->isReadOnly()) {
            line->setText(QStringLiteral("1 of Jonas"));
            emit line->textEdited(line->text());
        }
    workbench->select(other);
    page->refresh();
    QTest::qWait(1);  // the fields of the form are put away
    for (QLineEdit* line : page->findChildren<QLineEdit*>())
        EXPECT_FALSE(line->text().contains(QStringLiteral("Jonas"))) << line->accessibleName().toStdString();
    for (QComboBox* each : page->findChildren<QComboBox*>())
        EXPECT_EQ(each->currentIndex(), each->count() > 0 ? 0 : -1) << each->accessibleName().toStdString();
    for (QAbstractButton* each : page->findChildren<QAbstractButton*>())
        if (each->text() == QStringLiteral("Write down") || each->text() == QStringLiteral("Save the form"))
            each->click();
    const PatientRecord& saved = **workbench->desk().record(other);
    EXPECT_TRUE(saved.scales.empty());
    for (const auto& noted : saved.whereabouts) EXPECT_EQ(noted.value.where, "");
}

TEST_F(CallPageTest, AnswersThatWereTakenOutAgainDoNotComeBack) {
    key(Qt::Key_P);
    keys_of("7");
    ASSERT_TRUE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
    for (QWidget* each : page->findChildren<QWidget*>())
        if (each->inherits("evenfall::ui::ScoreCell") || each->inherits("evenfall::ui::DayStrip"))
            for (int day = 0; day < 8; ++day) {
                QTest::keyClick(each, Qt::Key_Backspace);
                QTest::keyClick(each, Qt::Key_Right);
            }
    EXPECT_FALSE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
}

TEST_F(CallPageTest, TabMeetsEveryFieldOfThePageOnTheWayRound) {
    std::set<QWidget*> wanted, met;
    for (QWidget* each : page->findChildren<QWidget*>())
        if (each->isVisible() && each->isEnabled() && (each->focusPolicy() & Qt::TabFocus) &&
            !each->focusProxy())
            wanted.insert(each);
    for (std::size_t step = 0; step < 2 * wanted.size() + 10; ++step) {
        met.insert(QApplication::focusWidget());
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
    }
    for (QWidget* each : wanted)
        EXPECT_TRUE(met.contains(each))
            << each->accessibleName().toStdString() << " (" << each->metaObject()->className() << ")";
}

TEST_F(CallPageTest, NobodyAnsweringIsOneKey) {
    key(Qt::Key_A);
    ASSERT_EQ(record().attempts.size(), 1u);
    EXPECT_NE(words().find("Calls without an answer since then: 1"), std::string::npos);
}

TEST_F(CallPageTest, NamesEveryControlAndCutsNothingOff) {
    QTest::qWait(50);  // for the layout to settle
    EXPECT_EQ(nameless(*page).join(QStringLiteral("; ")).toStdString(), "");
    EXPECT_EQ(cut_off(*page).join(QStringLiteral("; ")).toStdString(), "");
}

}  // namespace
}  // namespace evenfall::ui
