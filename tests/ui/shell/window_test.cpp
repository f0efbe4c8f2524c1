// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QTest>
#include <QTimer>

#include <gtest/gtest.h>

#include "record/record_page.h"
#include "record/sections.h"
#include "reference/reference_window.h"
#include "shell/caseload_pane.h"
#include "shell/main_window.h"
#include "shell/new_person.h"
#include "theme/theme.h"
#include "ui/acceptance/hands.h"
#include "ui/support/invented_clinic.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

std::vector<PageMaker> pages() {
    return {
        {QStringLiteral("record"), QStringLiteral("Record"),
         [](Workbench& workbench, QWidget* parent) -> Page* { return new RecordPage(workbench, parent); }}};
}

class WindowTest : public testing::Test {
  protected:
    void show(WindowServices services = {}) {
        window = std::make_unique<MainWindow>(*workbench, pages(), std::move(services));
        window->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    void open(const char* name) {
        for (const CaseloadLine& line : lines())
            if (line.name == name) workbench->select(line.patient);
    }
    std::vector<CaseloadLine> lines() {
        Faults faults;
        return workbench->desk().caseload(workbench->now(), faults);
    }
    void TearDown() override { apply_theme(*qApp, ThemeKind::light); }

    std::unique_ptr<Workbench> workbench = small_clinic();
    std::unique_ptr<MainWindow> window;
};

/// A window that stays open overnight does not show yesterday's list.
TEST(WindowClock, DerivesTheListAgainWhenTheDayChanges) {
    auto first = small_clinic();
    auto now = std::make_shared<LocalTime>(first->now());
    Workbench workbench(std::move(first->desk()), Texts::load(resources_folder(), "en").value(),
                        [now] { return *now; });
    const PatientId jonas = workbench.desk().patients().front();
    MainWindow window(workbench, pages());
    const auto reasons = [&] {
        const auto* line = window.caseload().model().line(window.caseload().model().find(jonas));
        std::string all;
        for (const Reason& reason : line->reasons) all += reason.flag.rule + ' ';
        return all;
    };
    EXPECT_EQ(reasons().find("check-in-due"), std::string::npos) << reasons();
    const std::string before = reasons();
    *now += std::chrono::days(4);  // the call planned in two days is late
    for (QTimer* timer : window.findChildren<QTimer*>(QString(), Qt::FindDirectChildrenOnly))
        if (timer->interval() == 60'000) timer->setInterval(1);
    EXPECT_TRUE(QTest::qWaitFor([&] { return reasons() != before; }, 2000)) << reasons();
}

TEST_F(WindowTest, NamesEveryControlOnEveryPartInEveryTheme) {
    show();
    open("Jonas Hale");
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark, ThemeKind::contrast}) {
        apply_theme(*qApp, kind);
        for (const SectionMaker& part : record_sections()) {
            window->show_page(QStringLiteral("record/") + part.id);
            QTest::qWait(0);
            EXPECT_EQ(nameless(*window).join(QStringLiteral("; ")).toStdString(), "")
                << part.id.toStdString();
        }
    }
}

TEST_F(WindowTest, CutsNoWordsOff) {
    show();
    open("Jonas Hale");
    for (const SectionMaker& part : record_sections()) {
        window->show_page(QStringLiteral("record/") + part.id);
        QTest::qWait(20);
        EXPECT_EQ(cut_off(*window).join(QStringLiteral(" | ")).toStdString(), "") << part.id.toStdString();
    }
}

TEST_F(WindowTest, NamesEveryControlOfTheReference) {
    ReferenceWindow reference(*workbench);
    reference.show();
    reference.show_drug("clonazepam");
    QTest::qWait(0);
    EXPECT_EQ(nameless(reference).join(QStringLiteral("; ")).toStdString(), "");
}

TEST_F(WindowTest, KeepsPatientsOutOfItsTitle) {
    show();
    open("Jonas Hale");
    EXPECT_EQ(window->windowTitle(), QStringLiteral("Evenfall"));
}

TEST_F(WindowTest, FindsAPersonByKeyboardAlone) {
    show();
    CaseloadPane& pane = window->caseload();
    QTest::keyClick(pane.list(), Qt::Key_M);
    EXPECT_TRUE(pane.search_field()->hasFocus());
    QTest::keyClicks(pane.search_field(), QStringLiteral("irjam"));
    int people = 0;
    for (int row = 0; row < pane.model().rowCount(); ++row)
        people += pane.model().line(pane.model().index(row)) ? 1 : 0;
    EXPECT_EQ(people, 1);
    QTest::keyClick(pane.search_field(), Qt::Key_Return);
    ASSERT_NE(workbench->record(), nullptr);
    EXPECT_EQ(workbench->record()->person->value.name, "Mirjam Oyelaran");
}

TEST_F(WindowTest, GroupsThePeopleWithCountsThatAddUp) {
    show();
    const CaseloadModel& model = window->caseload().model();
    int told = 0;
    for (int row = 0; row < model.rowCount(); ++row)
        if (!model.line(model.index(row))) told += model.index(row).data(CaseloadModel::kCount).toInt();
    EXPECT_EQ(told, static_cast<int>(lines().size()));
}

TEST_F(WindowTest, CoversEverythingUntilThePassphraseIsProved) {
    WindowServices services;
    services.prove = [](const std::string& typed) -> Result<Done> {
        if (typed == "four unrelated words here") return Done{};
        return Fault{"store-wrong-passphrase", "", {}};
    };
    show(std::move(services));
    open("Jonas Hale");
    NewPersonDialog dialog(*workbench, window.get());
    dialog.show();
    window->cover();
    LockCover* cover = window->lock_cover();
    ASSERT_TRUE(cover->is_covering());
    EXPECT_EQ(cover->geometry(), window->rect());
    EXPECT_FALSE(dialog.isVisible()) << "a dialog above the cover would show what it hides";
    EXPECT_FALSE(window->caseload().isEnabled()) << "nothing beneath can be reached";
    QTest::keyClicks(cover->passphrase(), QStringLiteral("wrong"));
    QTest::keyClick(cover->passphrase(), Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([cover] { return cover->passphrase()->text().isEmpty(); }));
    EXPECT_TRUE(cover->is_covering());
    QTest::keyClicks(cover->passphrase(), QStringLiteral("four unrelated words here"));
    QTest::keyClick(cover->passphrase(), Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([cover] { return !cover->is_covering(); }));
    EXPECT_TRUE(window->caseload().isEnabled());
}

TEST_F(WindowTest, SaysWhatWouldBeHereWhereNobodyIs) {
    workbench = empty_workbench();
    show();
    bool said = false;
    for (const QLabel* label : window->findChildren<QLabel*>())
        said = said || (label->isVisible() && label->text() == QStringLiteral("Nobody is here yet"));
    EXPECT_TRUE(said);
}

/// The key of a page goes where the page begins: no hand has to leave the keys to reach a part of the record.
TEST_F(WindowTest, TheKeyOfTheRecordGoesToItsParts) {
    show();
    workbench->select(lines().front().patient);
    QTest::keyClick(window.get(), Qt::Key_1, Qt::ControlModifier);
    auto* parts = find_named<QListWidget>(*window, QStringLiteral("Parts of the record"));
    ASSERT_NE(parts, nullptr);
    EXPECT_EQ(window->focusWidget(), parts);
    QTest::keyClicks(window->focusWidget(), QStringLiteral("risk"));
    EXPECT_EQ(parts->currentItem()->text().toStdString(), "Risk screen");
}

/// A laptop's 1280 pixels are enough for everyone, also where something presses.
TEST_F(WindowTest, NobodyMakesTheWindowWiderThanALaptop) {
    show();
    for (const CaseloadLine& line : lines()) {
        workbench->select(line.patient);
        settle();
        EXPECT_LE(window->minimumSizeHint().width(), 1250) << line.name;
    }
}

/// In a narrow window a page that compares things gets the room of what is next; that stays in sight by its
/// count, comes back at a press, and its keys act all the while.
TEST_F(WindowTest, AWidePageFoldsAwayWhatIsNext) {
    auto two = pages();
    two.push_back({QStringLiteral("wide"), QStringLiteral("Wide"), two.front().make, true});
    window = std::make_unique<MainWindow>(*workbench, two);
    window->resize(1280, 800);
    window->show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    workbench->select(lines().front().patient);
    auto* next = find_named<QScrollArea>(*window, QStringLiteral("What to do next"));
    ASSERT_NE(next, nullptr);
    EXPECT_TRUE(next->isVisible());
    QTest::keyClick(window.get(), Qt::Key_2, Qt::ControlModifier);
    EXPECT_FALSE(next->isVisible());
    QAbstractButton* unfold = nullptr;
    for (auto* button : window->findChildren<QAbstractButton*>())
        if (button->isVisible() && button->text().startsWith(QLatin1String("Next"))) unfold = button;
    ASSERT_NE(unfold, nullptr);
    EXPECT_TRUE(unfold->text().contains(QLatin1String("to do"))) << unfold->text().toStdString();
    QStringList asked;
    QObject::connect(workbench.get(), &Workbench::page_wanted, workbench.get(),
                     [&asked](const QString& page) { asked << page; });
    QTest::keyClick(window.get(), Qt::Key_1, Qt::AltModifier);
    EXPECT_EQ(asked.size(), 1);
    QTest::keyClick(window.get(), Qt::Key_2, Qt::ControlModifier);
    unfold->click();
    EXPECT_TRUE(next->isVisible());
    EXPECT_FALSE(unfold->isVisible());
    press(*window, "Fold away");
    EXPECT_FALSE(next->isVisible());
    EXPECT_EQ(window->width(), 1280);
    window->resize(1600, 900);
    EXPECT_TRUE(QTest::qWaitFor([next] { return next->isVisible(); }));
    EXPECT_FALSE(unfold->isVisible());
}

}  // namespace
}  // namespace evenfall::ui
