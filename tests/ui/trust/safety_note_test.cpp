// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/safety_note.h"

#include <algorithm>

#include "shell/caseload_pane.h"
#include "shell/main_window.h"
#include "theme/theme.h"
#include "ui/support/walk.h"
#include "ui/trust/trust_fixture.h"

// The one line in the main window that says that safe keeping asks for something.

namespace evenfall::ui {
namespace {

class SafetyNoteTest : public TrustTest {
  protected:
    SafetyNoteTest() {
        WindowServices services;
        services.make_trust = [this](Workbench&, QWidget*) -> QWidget* {
            ++opened;
            return new QWidget;
        };
        main = std::make_unique<MainWindow>(*workbench, std::vector<PageMaker>{}, std::move(services));
        note = new SafetyNote(*workbench, *keeper, &main->caseload());
        QObject::connect(note, &QPushButton::clicked, main.get(), &MainWindow::show_trust);
        main->caseload().add_notice(note);
        main->show();
    }
    bool reminds_of(const char* rule) {
        return std::ranges::any_of(keeper->reminders(),
                                   [rule](const Flag& flag) { return flag.rule == rule; });
    }
    std::string change_rule(const char* rule, const char* name, const char* value) {
        const bool done =
            workbench->carry_out_for_clinic({RuleChanged{rule, name, value, "so agreed with the practice"}});
        return done ? "" : "refused";
    }

    int opened = 0;
    std::unique_ptr<MainWindow> main;
    SafetyNote* note = nullptr;
};

}  // namespace

TEST_F(SafetyNoteTest, SaysThatThereIsNoBackUpUntilThereIsOne) {
    EXPECT_TRUE(note->isVisible());
    EXPECT_EQ(note->text().toStdString(), "No back-up yet (Ctrl+B)");
    EXPECT_EQ(nameless(*main).join(u';').toStdString(), "");
    EXPECT_EQ(cut_off(*main).join(u';').toStdString(), "");
    QTest::mouseClick(note, Qt::LeftButton);
    EXPECT_EQ(opened, 1) << "it leads there";
    window->choose_folder(folder_path() / "stick");
    ASSERT_NE(back_up(), "");
    EXPECT_FALSE(note->isVisible());
    now += std::chrono::hours(24 * 8);
    keeper->look_at_schedule();
    EXPECT_TRUE(note->text().startsWith(QStringLiteral("Last back-up 8 days ago"))) << "until one is made";
    ASSERT_TRUE(QTest::qWaitFor([this] { return !keeper->is_running() && !note->isVisible(); }));
}

TEST_F(SafetyNoteTest, AScheduledBackUpThatFailsIsSaidUntilOneComesAbout) {
    window->choose_folder(folder_path() / "pulled-out");
    keeper->look_at_schedule();
    ASSERT_FALSE(keeper->is_running());
    EXPECT_EQ(note->text().toStdString(), "The last back-up failed (Ctrl+B)");
    EXPECT_TRUE(note->toolTip().contains(QStringLiteral("did not come about")))
        << note->toolTip().toStdString();
    EXPECT_TRUE(shown().contains(QStringLiteral("did not come about")))
        << "also in the window of safe keeping";
    EXPECT_EQ(keeper->kept().failure, "store-no-such-folder");
    // It is kept in the store: another start says so too.
    BackupKeeper again(
        *store, [this]() -> const Rules& { return workbench->desk().rules(); }, [this] { return now; });
    EXPECT_EQ(again.reminders().front().rule, "backup-failed");
    window->choose_folder(folder_path() / "stick");
    ASSERT_NE(back_up(), "");
    EXPECT_FALSE(note->isVisible());
    EXPECT_TRUE(keeper->kept().failure.empty());
}

TEST_F(SafetyNoteTest, AChangedRuleCountsAtOnce) {
    window->choose_folder(folder_path() / "stick");
    ASSERT_NE(back_up(), "");
    now += std::chrono::hours(24 * 4);
    EXPECT_FALSE(reminds_of("backup-old"));
    ASSERT_EQ(change_rule("backup-old", "days", "3"), "");
    EXPECT_TRUE(reminds_of("backup-old"));
    EXPECT_TRUE(note->isVisible());
    now -= std::chrono::hours(24 * 4) - std::chrono::hours(5);
    keeper->look_at_schedule();
    EXPECT_FALSE(keeper->is_running()) << "a day is not over";
    ASSERT_EQ(change_rule("backup-rotation", "every_hours", "4"), "");
    EXPECT_TRUE(shown().contains(QStringLiteral("every 4 hours")));
    keeper->look_at_schedule();
    EXPECT_TRUE(keeper->is_running());
    ASSERT_TRUE(QTest::qWaitFor([this] { return !keeper->is_running(); }));
}

TEST_F(SafetyNoteTest, FitsInAnyTheme) {
    const QString at = qEnvironmentVariable("EVENFALL_PICTURES");
    const ThemeKind before = theme_in_force();
    const std::pair<ThemeKind, const char*> themes[] = {
        {ThemeKind::light, "light"}, {ThemeKind::dark, "dark"}, {ThemeKind::contrast, "contrast"}};
    for (const auto& [theme, name] : themes) {
        apply_theme(*qApp, theme);
        QTest::qWait(20);
        EXPECT_EQ(cut_off(*main).join(u';').toStdString(), "") << name;
        if (!at.isEmpty()) main->grab().save(at + QStringLiteral("/note-%1.png").arg(QLatin1String(name)));
    }
    apply_theme(*qApp, before);
}

}  // namespace evenfall::ui
