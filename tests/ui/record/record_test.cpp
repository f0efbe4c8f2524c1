// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTest>

#include <gtest/gtest.h>

#include "controls/typed_field.h"
#include "record/answer_choice.h"
#include "record/record_page.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

class RecordTest : public testing::Test {
  protected:
    void begin(Role role = Role::prescriber) {
        workbench = empty_workbench(role);
        first = add_person(*workbench, "Noor Haddad", "0601");
        second = add_person(*workbench, "Rufus Amadi", "0602");
        workbench->show_faults = [this](const Faults& given) {
            faults.insert(faults.end(), given.begin(), given.end());
        };
        workbench->select(first);
        page = std::make_unique<RecordPage>(*workbench);
        page->resize(1000, 800);
        page->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    }
    template <class Widget>
    Widget* visible(const char* name, int number = 0) {
        for (Widget* each : page->findChildren<Widget*>())
            if (each->isVisible() && each->accessibleName() == QString::fromLatin1(name) && number-- == 0)
                return each;
        return nullptr;
    }
    void type(const char* name, const char* text, int number = 0) {
        auto* line = visible<QLineEdit>(name, number);
        ASSERT_NE(line, nullptr) << name;
        line->clear();
        QTest::keyClicks(line, QString::fromUtf8(text));
    }
    void press(const char* name) {
        auto* button = visible<QPushButton>(name);
        ASSERT_NE(button, nullptr) << name;
        QTest::mouseClick(button, Qt::LeftButton);
    }
    void dose(int number, const char* at, const char* drug, const char* amount) {
        type("Time, hours and minutes", at, number);
        auto* choice = visible<QComboBox>("Agent", number);
        ASSERT_NE(choice, nullptr);
        choice->setCurrentText(QString::fromLatin1(drug));
        type("Amount, milligrams", amount, number);
    }

    std::unique_ptr<Workbench> workbench;
    PatientId first, second;
    Faults faults;
    std::unique_ptr<RecordPage> page;
};

TEST_F(RecordTest, WritesTheRegimenAsItWasTyped) {
    begin();
    page->show_part(QStringLiteral("regimen"));
    dose(0, "8", "clonazepam", "1");
    press("Add a dose");
    dose(1, "21:00", "clonazepam", "1.5");
    press("Save: What is taken");
    ASSERT_TRUE(faults.empty());
    const PatientRecord* record = workbench->record();
    ASSERT_EQ(record->regimens.size(), 1U);
    const auto& doses = record->regimens[0].value.regimen.regimen.doses;
    ASSERT_EQ(doses.size(), 2U);
    EXPECT_EQ(doses[0].at.minutes, 480);
    EXPECT_EQ(doses[0].amount, Dose::milligrams(1));
    EXPECT_EQ(doses[1].at.minutes, 1260);
    EXPECT_EQ(doses[1].amount, Dose::micrograms(1500));
}

TEST_F(RecordTest, KeepsTheFocusInThePartThatWasSaved) {
    begin();
    page->show_part(QStringLiteral("regimen"));
    dose(0, "8", "clonazepam", "1");
    visible<QLineEdit>("Amount, milligrams")->setFocus();
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    ASSERT_EQ(workbench->record()->regimens.size(), 1U);
    QCoreApplication::processEvents();
    const QWidget* focus = page->focusWidget();
    ASSERT_NE(focus, nullptr);
    const auto* part = visible<QPushButton>("Save: What is taken")->parentWidget();
    EXPECT_TRUE(part->isAncestorOf(focus)) << focus->accessibleName().toStdString();
}

TEST_F(RecordTest, RefusesACommaInAnAmountAndWritesNothing) {
    begin();
    page->show_part(QStringLiteral("regimen"));
    dose(0, "8", "clonazepam", "1,5");
    press("Save: What is taken");
    EXPECT_TRUE(workbench->record()->regimens.empty());
}

TEST_F(RecordTest, ShowsAFaultBesideItsFieldAndKeepsWhatWasTyped) {
    begin();
    page->show_part(QStringLiteral("person"));
    type("Name", "");
    press("Save: Person");
    EXPECT_TRUE(faults.empty()) << "the section shows its own faults";
    EXPECT_EQ(workbench->record()->person->value.name, "Noor Haddad");
    EXPECT_TRUE(visible<QLineEdit>("Name")->property("wrong").toBool());
    EXPECT_TRUE(visible<QLineEdit>("Name")->text().isEmpty());
}

TEST_F(RecordTest, KeepsUnsavedWordsWhenAnotherPersonIsChosen) {
    begin();
    page->show_part(QStringLiteral("goals"));
    auto* goals = visible<QPlainTextEdit>("Goals, one a line");
    ASSERT_NE(goals, nullptr);
    QTest::keyClicks(goals, QStringLiteral("Walk to the sea"));
    workbench->select(second);
    EXPECT_EQ(visible<QPlainTextEdit>("Goals, one a line")->toPlainText(), QString());
    workbench->select(first);
    EXPECT_EQ(visible<QPlainTextEdit>("Goals, one a line")->toPlainText(), QStringLiteral("Walk to the sea"));
    EXPECT_FALSE(workbench->record()->goals.has_value());
}

TEST_F(RecordTest, KeepsUnsavedWordsOfOnePartWhenAnotherIsSaved) {
    begin();
    page->show_part(QStringLiteral("goals"));
    QTest::keyClicks(visible<QPlainTextEdit>("Goals, one a line"), QStringLiteral("Walk to the sea"));
    page->show_part(QStringLiteral("cutting"));
    type("Who helps", "the pharmacy");
    press("Save: Cutting tablets");
    ASSERT_TRUE(workbench->record()->cutting.has_value());
    page->show_part(QStringLiteral("goals"));
    EXPECT_EQ(visible<QPlainTextEdit>("Goals, one a line")->toPlainText(), QStringLiteral("Walk to the sea"));
}

TEST_F(RecordTest, AnswersTheRiskScreenByKeyboard) {
    begin();
    page->show_part(QStringLiteral("risks"));
    auto* opioid = visible<AnswerChoice>("Opioid: not asked");
    ASSERT_NE(opioid, nullptr);
    QTest::keyClick(opioid, Qt::Key_Y);
    QTest::keyClick(visible<AnswerChoice>("Epilepsy: not asked"), Qt::Key_N);
    press("Save: Risk screen");
    const auto& risks = workbench->record()->risks;
    ASSERT_TRUE(risks.has_value());
    EXPECT_EQ(risks->value.answers.at("opioid"), Answer::yes);
    EXPECT_EQ(risks->value.answers.at("epilepsy"), Answer::no);
    EXPECT_EQ(risks->value.answers.at("pregnancy"), Answer::not_asked);
}

TEST_F(RecordTest, LetsNoNurseSignTheOutcomeAndSaysWhy) {
    begin(Role::nurse);
    page->show_part(QStringLiteral("risks"));
    auto* sign = visible<QPushButton>("Sign the outcome");
    ASSERT_NE(sign, nullptr);
    EXPECT_FALSE(sign->isEnabled());
    EXPECT_FALSE(sign->accessibleDescription().isEmpty());
}

TEST_F(RecordTest, ListsWhoDidWhatWhen) {
    begin();
    page->show_part(QStringLiteral("lines"));
    auto* table = visible<QTableWidget>("History of everything");
    ASSERT_NE(table, nullptr);
    ASSERT_EQ(table->rowCount(), 1);
    EXPECT_EQ(table->item(0, 1)->text(), QStringLiteral("Mara Keel"));
}

TEST_F(RecordTest, SurvivesHostileWordsInEveryLine) {
    begin();
    const QStringList hostile = {QString(10'000, u'x'), QStringLiteral("<b>bold</b> & <script>"),
                                 QString(QChar(0x202E)) + QStringLiteral("gm 5"),
                                 QStringLiteral("'; DROP TABLE events; --")};
    for (const QString& words : hostile) {
        page->show_part(QStringLiteral("person"));
        visible<QLineEdit>("Name")->setText(words);
        press("Save: Person");
        page->show_part(QStringLiteral("cutting"));
        visible<QLineEdit>("Who helps")->setText(words);
        press("Save: Cutting tablets");
    }
    EXPECT_EQ(workbench->record()->person->value.name, "'; DROP TABLE events; --") << "it is only a name";
}

}  // namespace
}  // namespace evenfall::ui
