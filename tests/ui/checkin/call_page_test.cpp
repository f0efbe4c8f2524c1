// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/call_page.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QTest>
#include <QTimer>
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

    /// Closes the page and opens another one.
    void open_again() {
        page.reset();
        page = std::make_unique<CallPage>(*workbench);
        page->resize(840, 760);
        workbench->select(jonas);
        page->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    }
    QAbstractButton* button(const QString& text) {
        for (QAbstractButton* each : page->findChildren<QAbstractButton*>())
            if (each->isVisible() && each->text().startsWith(text)) return each;
        return nullptr;
    }
    template <class Field>
    Field* field(const char* name) {
        for (Field* each : page->findChildren<Field*>())
            if (each->accessibleName() == QLatin1String(name)) return each;
        return nullptr;
    }
    /// A call that was begun some days ago.
    CallForm old_call(int days_ago) {
        CallForm form;
        form.begun = at_clock(workbench->today() - days(days_ago), {605});
        form.answers = {{"seizure", "no"}, {"sleep", "7 hours"}};
        form.scores = {{"anxiety", 5}};
        return form;
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

TEST_F(CallPageTest, ACallOfAnEarlierDayIsAskedAboutAndGoesOnDatedToday) {
    page.reset();
    ASSERT_TRUE(workbench->desk().put_draft(jonas, "check-in", print_call(old_call(2))));
    open_again();
    EXPECT_NE(words().find("was never saved"), std::string::npos);
    EXPECT_EQ(QApplication::focusWidget(), button(QStringLiteral("Go on, dated today")));
    key(Qt::Key_Return, Qt::ControlModifier);
    EXPECT_EQ(record().check_ins.size(), 1u) << "not before it is known on which day it was";
    QTest::mouseClick(button(QStringLiteral("Go on, dated today")), Qt::LeftButton);
    EXPECT_EQ(words().find("was never saved"), std::string::npos);
    EXPECT_NE(words().find("13 questions are not asked yet"), std::string::npos) << "an old no is no answer";
    ASSERT_TRUE(focus().startsWith(QStringLiteral("Days since the last call"))) << focus().toStdString();
    EXPECT_TRUE(focus().contains(QStringLiteral("4 not said yet"))) << focus().toStdString();
    EXPECT_EQ(field<QLineEdit>("Sleep, in hours or words")->text(), QStringLiteral("7 hours"));
    key(Qt::Key_Return, Qt::ControlModifier);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(record().check_ins.size(), 2u);
    EXPECT_EQ(record().check_ins.back().value.at, workbench->now());
    EXPECT_EQ(record().check_ins.back().value.answers.size(), 1u) << "the words; no old no";
    EXPECT_EQ(record().symptoms.back().value.entries.front().rated_at, workbench->now());
}

TEST_F(CallPageTest, ACallThatWasFinishedOnAnEarlierDayKeepsItsDay) {
    page.reset();
    const CallForm old = old_call(2);
    ASSERT_TRUE(workbench->desk().put_draft(jonas, "check-in", print_call(old)));
    open_again();
    QTest::mouseClick(button(QStringLiteral("It was finished then")), Qt::LeftButton);
    key(Qt::Key_Return, Qt::ControlModifier);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(record().check_ins.size(), 2u);
    EXPECT_EQ(record().check_ins.back().value.at, old.begun);
}

TEST_F(CallPageTest, ADangerIsWrittenWithTheTimeAtWhichItWasSaid) {
    page.reset();
    CallForm form = old_call(0);
    form.begun = workbench->now() - std::chrono::hours(1);
    ASSERT_TRUE(workbench->desk().put_draft(jonas, "check-in", print_call(form)));
    open_again();
    page->findChildren<AnswerChoice*>().front()->setFocus();
    keys_of("y");
    ASSERT_EQ(record().check_ins.size(), 2u);
    EXPECT_EQ(record().check_ins.back().value.at, workbench->now());
}

TEST_F(CallPageTest, WordsThatAreBeingTypedAreThereAfterClosing) {
    field<QPlainTextEdit>("In their own words")->setFocus();
    keys_of("half a sent");
    open_again();
    EXPECT_EQ(field<QPlainTextEdit>("In their own words")->toPlainText(), QStringLiteral("half a sent"));
}

TEST_F(CallPageTest, WordsThatAreBeingTypedAreKeptOnCoveringHidingAndChoosingAnother) {
    const auto kept = [this] {
        const auto draft = workbench->desk().read_draft(jonas, "check-in").value();
        return draft ? read_call(*draft).value().own_words : std::string("nothing");
    };
    auto* own = field<QPlainTextEdit>("In their own words");
    own->setFocus();
    keys_of("a");
    page->setEnabled(false);  // as the cover does
    EXPECT_EQ(kept(), "a");
    page->setEnabled(true);
    own->setFocus();
    keys_of("b");
    page->hide();
    EXPECT_EQ(kept(), "ab");
    page->show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    own->setFocus();
    keys_of("c");
    const auto known = workbench->desk().patients();
    workbench->select(*std::ranges::find_if(known, [this](const PatientId& each) { return each != jonas; }));
    EXPECT_EQ(kept(), "abc");
}

TEST_F(CallPageTest, WhatWasTypedBesideTheTalkIsThereAfterClosing) {
    ASSERT_TRUE(workbench->desk().carry_out(
        jonas, {CheckIn{workbench->now() - std::chrono::hours(1), {{"seizure", "yes"}}, ""}}, {},
        workbench->now()));
    page->refresh();
    field<QLineEdit>("Where is the person?")->setFocus();
    keys_of("at the station");
    auto* form = field<QComboBox>("Form");
    form->setCurrentIndex(1);
    const QString chosen = form->currentText();
    open_again();
    EXPECT_EQ(field<QLineEdit>("Where is the person?")->text(), QStringLiteral("at the station"));
    EXPECT_EQ(field<QComboBox>("Form")->currentText(), chosen);
    EXPECT_EQ(words().find("Taken up again"), std::string::npos) << "nothing of the talk was answered";
    QTest::mouseClick(button(QStringLiteral("Write down")), Qt::LeftButton);
    EXPECT_EQ(record().whereabouts.size(), 1u);
    field<QComboBox>("Form")->setCurrentIndex(0);
    open_again();
    EXPECT_FALSE(workbench->desk().read_draft(jonas, "check-in").value().has_value())
        << "what was written down is no draft any more";
}

TEST_F(CallPageTest, WritingOneFieldDownKeepsWhatWasTypedBesideIt) {
    ASSERT_TRUE(workbench->desk().carry_out(
        jonas, {CheckIn{workbench->now() - std::chrono::hours(1), {{"seizure", "yes"}}, ""}}, {},
        workbench->now()));
    page->refresh();
    field<QLineEdit>("Who was told")->setFocus();
    keys_of("Dr A.");
    field<QLineEdit>("Where is the person?")->setFocus();
    keys_of("at the station");
    QTest::mouseClick(button(QStringLiteral("Write down")), Qt::LeftButton);
    ASSERT_EQ(record().whereabouts.size(), 1u);
    open_again();
    EXPECT_EQ(field<QLineEdit>("Who was told")->text(), QStringLiteral("Dr A."));
    EXPECT_EQ(field<QLineEdit>("Where is the person?")->text(), QStringLiteral("at the station"));
    field<QLineEdit>("Where is the person?")->setText(QStringLiteral("in the ambulance"));
    field<QLineEdit>("What they answered")->setFocus();
    keys_of("comes");
    QTest::mouseClick(button(QStringLiteral("They have been told")), Qt::LeftButton);
    ASSERT_EQ(record().told.size(), 1u);
    open_again();
    EXPECT_EQ(field<QLineEdit>("Where is the person?")->text(), QStringLiteral("in the ambulance"));
}

TEST_F(CallPageTest, WordsOfADangerOfAnotherDayAreShownAsOfThatDay) {
    CallForm form = old_call(1);
    form.answers.clear();
    form.scores.clear();
    form.beside = {{"Danger/line3", "Dr A."}, {"Forms/item0", "2"}};
    ASSERT_TRUE(workbench->desk().put_draft(jonas, "check-in", print_call(form)));
    open_again();
    EXPECT_NE(words().find("“Dr A.”"), std::string::npos) << words();
    EXPECT_NE(words().find("Write it anew if it still holds"), std::string::npos);
    for (QLineEdit* each : page->findChildren<QLineEdit*>())
        EXPECT_NE(each->text(), QStringLiteral("Dr A.")) << "as if it were of today";
    page->findChildren<AnswerChoice*>().front()->setFocus();
    keys_of("n");
    open_again();
    EXPECT_NE(words().find("“Dr A.”"), std::string::npos) << "until a call is saved that it stood beside";
    key(Qt::Key_Return, Qt::ControlModifier);
    key(Qt::Key_Return, Qt::ControlModifier);  // it asked back about what was not asked
    ASSERT_EQ(record().check_ins.size(), 2u);
    open_again();
    EXPECT_EQ(words().find("“Dr A.”"), std::string::npos);
}

TEST_F(CallPageTest, BeginningAnewIsAskedAboutAndLeavesADangerInTheRecord) {
    page->findChildren<AnswerChoice*>().front()->setFocus();
    keys_of("y");
    ASSERT_EQ(record().check_ins.size(), 2u);
    const auto begin_anew = [this](bool go) {
        QTimer::singleShot(0, [go] {
            auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
            if (!dialog) return ADD_FAILURE() << "nothing was asked";
            go ? dialog->accept() : dialog->reject();
        });
        page->findChild<QAbstractButton*>(QStringLiteral("anew"))->click();
    };
    begin_anew(false);
    EXPECT_TRUE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
    begin_anew(true);
    EXPECT_FALSE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
    EXPECT_EQ(record().check_ins.size(), 2u) << "the danger stays";
    EXPECT_NE(words().find("Nobody has been told yet"), std::string::npos);
    EXPECT_NE(words().find("13 questions are not asked yet"), std::string::npos);
}

TEST_F(CallPageTest, ADangerThatSomebodyActedOnIsEndedByALaterNoAndNeverTakenBack) {
    page->findChildren<AnswerChoice*>().front()->setFocus();
    keys_of("y");
    ASSERT_TRUE(workbench->carry_out(
        {DangerTold{record().check_ins.back().id, workbench->now(), "Dr A.", "", "comes"}}));
    page->findChildren<AnswerChoice*>().front()->setFocus();
    keys_of("n");
    ASSERT_EQ(record().check_ins.size(), 3u);
    EXPECT_EQ(record().check_ins.back().value.answers.front().second, "no");
}

TEST_F(CallPageTest, ACountThatWasEmptiedIsNoAnswer) {
    auto* count = page->findChild<QLineEdit*>(QString());
    for (QLineEdit* each : page->findChildren<QLineEdit*>())
        if (each->accessibleName().startsWith(QStringLiteral("Left at home"))) count = each;
    count->setFocus();
    keys_of("9");
    key(Qt::Key_Tab);
    EXPECT_TRUE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
    count->setFocus();
    key(Qt::Key_End);
    key(Qt::Key_Backspace);
    key(Qt::Key_Tab);
    EXPECT_FALSE(workbench->desk().read_draft(jonas, "check-in").value().has_value());
}

TEST_F(CallPageTest, SaysTodayAndYesterdayInWords) {
    EXPECT_NE(words().find("3 days ago"), std::string::npos);
    ASSERT_TRUE(workbench->carry_out(
        {CheckIn{workbench->now() - std::chrono::hours(24), {{"work", "2"}, {"home", "1"}}, ""}}));
    EXPECT_NE(words().find(", yesterday"), std::string::npos) << words();
    ASSERT_TRUE(workbench->carry_out(
        {CheckIn{workbench->now() - std::chrono::hours(1), {{"work", "2"}, {"home", "1"}}, ""}}));
    EXPECT_NE(words().find(", today"), std::string::npos) << words();
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
