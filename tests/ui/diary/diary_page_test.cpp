// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/diary_page.h"

#include <QCheckBox>
#include <QDir>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include "controls/typed_field.h"
#include "diary/day_entry.h"
#include "diary/diary_view.h"
#include "diary/dose_entry.h"
#include "diary/import_dialog.h"
#include "diary/score_cell.h"
#include "diary/take_back.h"
#include "theme/theme.h"
#include "ui/support/invented_clinic.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

/// Ana takes lorazepam 1 mg at 08:00, 14:00 and 22:00; it is 09:30 on 24 November 2026.
class DiaryPageTest : public testing::Test {
  protected:
    void SetUp() override {
        ana = add_person(*bench, "Ana Ferro", "0900");
        bench->show_faults = [this](const Faults& faults) { shown = faults; };
        bench->select(ana);
        RegimenRecorded regimen;
        regimen.regimen.from = bench->today() - days(60);
        for (const int hour : {8, 14, 22})
            regimen.regimen.regimen.doses.push_back({{hour * 60}, "lorazepam", Dose::milligrams(1), "", ""});
        Baseline baseline;
        baseline.on = bench->today();
        baseline.severity = {{"anxiety", 5}, {"poor sleep", 4}};
        ASSERT_TRUE(bench->carry_out({regimen, baseline}));
        page = std::make_unique<DiaryPage>(*bench);
        page->resize(900, 760);
        page->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
        settle();
    }
    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([this] { return !page->busy(); }, 20'000));
    }
    void key(Qt::Key which) { QTest::keyClick(QApplication::focusWidget(), which); }
    void type(const char* text) { QTest::keyClicks(QApplication::focusWidget(), QString::fromLatin1(text)); }
    Diary diary() { return diary_of(*bench->record()); }
    QString file(const char* text) {
        const QString path = folder.filePath(QStringLiteral("diary.csv"));
        QFile out(path);
        EXPECT_TRUE(out.open(QIODevice::WriteOnly));
        out.write(text);
        return path;
    }
    void write_week() {
        IntakeNoted taken;
        SymptomsNoted rated;
        for (int back = 7; back >= 1; --back) {
            const Day day = bench->today() - days(back);
            taken.entries.push_back({at_clock(day, {8 * 60 + 5}), "lorazepam", Dose::milligrams(1), {}, {}});
            taken.entries.push_back({at_clock(day, {17 * 60}), "lorazepam", Dose::milligrams(1), {}, {}});
            rated.entries.push_back({at_clock(day, {13 * 60}), "anxiety", back});
        }
        ASSERT_TRUE(bench->carry_out({taken, rated}));
        settle();
    }

    QTemporaryDir folder;
    std::unique_ptr<Workbench> bench = empty_workbench(Role::nurse);
    PatientId ana;
    Faults shown;
    std::unique_ptr<DiaryPage> page;
};

TEST_F(DiaryPageTest, TakesADayByKeysAlone) {
    page->show_part(QStringLiteral("enter"));
    key(Qt::Key_Down);  // yesterday
    key(Qt::Key_P);     // as planned: the focus goes to the symptoms
    type("7");
    type("x");
    page->entry()->rated_at()->edit()->setFocus();
    type("20:15");
    key(Qt::Key_Return);
    ASSERT_TRUE(shown.empty());
    const Diary written = diary();
    const Day yesterday = bench->today() - days(1);
    ASSERT_EQ(written.intake.size(), 3u);
    EXPECT_EQ(
        written.intake[2],
        (Intake{at_clock(yesterday, {22 * 60}), "lorazepam", Dose::milligrams(1), TakenWhy::as_planned, {}}));
    ASSERT_EQ(written.ratings.size(), 2u);
    EXPECT_EQ(written.ratings[0], (Rating{at_clock(yesterday, {20 * 60 + 15}), "anxiety", 7}));
    EXPECT_EQ(written.ratings[1].severity, 10);
}

TEST_F(DiaryPageTest, AnOpenDayIsPutAwayWhenAnotherPersonIsChosen) {
    const PatientId other = add_person(*bench, "Ruth Amsel", "0901");
    page->show_part(QStringLiteral("enter"));
    page->entry()->fill_as_planned();
    ASSERT_TRUE(page->entry()->isVisible());
    page->refresh();
    EXPECT_TRUE(page->entry()->isVisible()) << "it stays open for the same person";
    bench->select(other);
    page->refresh();
    EXPECT_FALSE(page->entry()->isVisible());
    bench->select(ana);
    page->refresh();
    EXPECT_FALSE(page->entry()->isVisible());
}

TEST_F(DiaryPageTest, LeavesDosesThatLieAheadOpen) {
    page->show_part(QStringLiteral("enter"));
    key(Qt::Key_P);
    key(Qt::Key_Return);
    const Diary written = diary();
    ASSERT_EQ(written.intake.size(), 1u);
    EXPECT_EQ(written.intake[0].taken_at, at_clock(bench->today(), {8 * 60}));
}

TEST_F(DiaryPageTest, WritesAnExceptionWithoutCallingItPlanned) {
    page->show_part(QStringLiteral("enter"));
    key(Qt::Key_Down);
    key(Qt::Key_P);
    DoseEntry* evening = page->entry()->doses()[2];
    evening->at()->edit()->setFocus();
    evening->at()->edit()->selectAll();
    type("0030");
    page->entry()->doses()[1]->setFocus();
    key(Qt::Key_Space);  // the afternoon's was not taken
    key(Qt::Key_Return);
    const Diary written = diary();
    ASSERT_EQ(written.intake.size(), 2u);
    EXPECT_EQ(written.intake[1].taken_at,
              at_clock(bench->today(), {30}));  // half past midnight, of yesterday's diary day
    EXPECT_EQ(written.intake[1].why, TakenWhy::unsaid);
}

TEST_F(DiaryPageTest, SavesNothingOfADayWithAWrongFieldAndSaysSo) {
    page->show_part(QStringLiteral("enter"));
    key(Qt::Key_Down);
    key(Qt::Key_P);
    page->entry()->doses()[0]->amount()->set_typed(QStringLiteral("1.2.3"));
    EXPECT_FALSE(page->entry()->commit());
    EXPECT_TRUE(diary().intake.empty());
    EXPECT_FALSE(page->entry()->message().isEmpty());
    page->entry()->doses()[0]->amount()->set_typed(QStringLiteral("1"));
    page->entry()->scores()[0]->set_score(3);  // when it was rated is not said, and is not made up
    EXPECT_FALSE(page->entry()->commit());
    EXPECT_TRUE(diary().ratings.empty());
}

TEST_F(DiaryPageTest, KeepsADayOnWhichNothingWasTaken) {
    page->show_part(QStringLiteral("enter"));
    key(Qt::Key_Down);
    page->entry()->nothing_taken()->setFocus();
    key(Qt::Key_Space);
    key(Qt::Key_Return);
    EXPECT_EQ(diary().kept_empty, std::vector<Day>{bench->today() - days(1)});
}

TEST_F(DiaryPageTest, WritesNothingOfAFaultyFileAndNamesRowAndColumn) {
    ImportDialog* dialog = page->open_import(file(
        "taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,1\n2026-11-20T14:00,lorazepam,\"1,000.5\"\n"));
    ASSERT_NE(dialog, nullptr);
    const auto* rows = dialog->table()->model();
    ASSERT_EQ(rows->rowCount(), 2);
    EXPECT_EQ(rows->index(1, ImportModel::line_column).data().toString(), QStringLiteral("3"));
    EXPECT_EQ(rows->index(1, ImportModel::place_column).data().toString(), QStringLiteral("amount_mg"));
    EXPECT_FALSE(rows->index(1, ImportModel::reason_column).data().toString().isEmpty());
    EXPECT_FALSE(dialog->commit()->isEnabled());
    dialog->accept();  // even so
    EXPECT_TRUE(diary().intake.empty());
}

TEST_F(DiaryPageTest, ImportsAGoodFileOnceAndFindsItAllThereTheNextTime) {
    const QString path =
        file("taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,1\n2026-11-20T14:00,lorazepam,0.5\n");
    ImportDialog* dialog = page->open_import(path);
    EXPECT_TRUE(diary().intake.empty());
    QTest::mouseClick(dialog->commit(), Qt::LeftButton);
    ASSERT_EQ(diary().intake.size(), 2u);
    EXPECT_EQ(bench->record()->intake.size(), 1u);
    ImportDialog* again = page->open_import(path);
    EXPECT_EQ(again->import().duplicates, 2u);
    EXPECT_FALSE(again->commit()->isEnabled());
    again->reject();
    EXPECT_EQ(diary().intake.size(), 2u);
}

TEST_F(DiaryPageTest, ExplainsWhatTheArrowKeysChoose) {
    write_week();
    page->view()->setFocus();
    key(Qt::Key_Up);
    EXPECT_EQ(page->view()->chosen()->day, bench->today());
    key(Qt::Key_Down);
    key(Qt::Key_Right);
    EXPECT_TRUE(page->explained().contains(QStringLiteral("08:05 lorazepam 1 mg. On time")))
        << page->explained().toStdString();
    key(Qt::Key_Right);
    EXPECT_TRUE(page->explained().contains(QStringLiteral("180 min after the intended 14:00")))
        << page->explained().toStdString();
    key(Qt::Key_Right);
    EXPECT_TRUE(page->explained().contains(QStringLiteral("intended at 22:00")))
        << page->explained().toStdString();
    key(Qt::Key_Right);
    EXPECT_TRUE(page->explained().contains(QStringLiteral("Anxiety, 0 to 10: 1 at 13:00")))
        << page->explained().toStdString();
    EXPECT_EQ(page->view()->accessibleDescription(), page->explained());
}

TEST_F(DiaryPageTest, DrawsTheBurdenAsTheMeanOfTheDaysSymptoms) {
    write_week();
    const Day day = bench->today() - days(2);  // anxiety 2
    SymptomsNoted more;
    more.entries = {{at_clock(day, {13 * 60}), "poor sleep", 4}, {at_clock(day, {20 * 60}), "poor sleep", 8}};
    ASSERT_TRUE(bench->carry_out({more}));
    settle();
    const Sheet& sheet = page->view()->sheet();
    EXPECT_DOUBLE_EQ(sheet.burden[*sheet.row_of(day)], 4);  // (2 + (4 + 8) / 2) / 2
    EXPECT_DOUBLE_EQ(sheet.burden[*sheet.row_of(day - days(1))], 3);
    EXPECT_LT(sheet.burden[*sheet.row_of(bench->today())], 0) << "nothing rated";
    page->view()->choose_day(day);
    EXPECT_TRUE(page->explained().contains(QStringLiteral("burden 4.0"))) << page->explained().toStdString();
}

TEST_F(DiaryPageTest, ChoosesTheDayThatAnotherPageAsksFor) {
    write_week();
    page->show_part(QStringLiteral("2026-11-20"));
    ASSERT_TRUE(page->view()->chosen());
    EXPECT_EQ(page->view()->chosen()->day, day_at(2026, 11, 20));
}

TEST_F(DiaryPageTest, TakesOneDoseBackWithAReasonAndKeepsTheRest) {
    write_week();
    page->view()->choose(DiarySpot{DiarySpot::Kind::dose, bench->today() - days(2), 1});
    page->take_back();
    auto* dialog = page->findChild<TakeBackDialog*>();
    ASSERT_NE(dialog, nullptr);
    EXPECT_FALSE(dialog->commit()->isEnabled());
    dialog->reason()->setText(QStringLiteral("misheard"));
    QTest::mouseClick(dialog->commit(), Qt::LeftButton);
    EXPECT_TRUE(shown.empty());
    EXPECT_EQ(diary().intake.size(), 13u);
    EXPECT_EQ(std::ranges::count(bench->record()->lines, Standing::amended, &HistoryLine::standing), 1);
}

TEST_F(DiaryPageTest, NamesEveryControlInEveryTheme) {
    write_week();
    page->show_part(QStringLiteral("enter"));
    page->entry()->fill_as_planned();
    page->findChild<QTableView*>()->show();
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark, ThemeKind::contrast}) {
        apply_theme(*qApp, kind);
        QTest::qWait(0);
        EXPECT_EQ(nameless(*page).join(QStringLiteral("; ")).toStdString(), "");
        EXPECT_EQ(cut_off(*page).join(QStringLiteral("; ")).toStdString(), "");
    }
    apply_theme(*qApp, ThemeKind::light);
}

TEST_F(DiaryPageTest, SaysWhatWouldBeHereWhereThereIsNoDiary) {
    EXPECT_FALSE(page->view()->isVisible());
    write_week();
    EXPECT_TRUE(page->view()->isVisible());
    bench->select({});
    EXPECT_FALSE(page->view()->isVisible());
}

}  // namespace
}  // namespace evenfall::ui
