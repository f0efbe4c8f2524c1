// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLineEdit>
#include <QTest>
#include <QTimer>
#include <algorithm>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "controls/messages.h"
#include "shell/lock.h"
#include "shell/unlock_wait.h"
#include "theme/theme.h"
#include "trust/passphrase_dialog.h"
#include "ui/support/walk.h"
#include "ui/trust/trust_fixture.h"

namespace evenfall::ui {
TEST_F(TrustTest, SaysInPlainWordsWhatIsProtectedWhatIsNotAndWhatToDo) {
    window->show();
    const QString text = shown();
    for (const char* each : {"What is protected", "What is not protected", "What you must do yourselves",
                             "disk encryption", "There is no back-up yet", "Otherwise it cannot be noticed"})
        EXPECT_TRUE(text.contains(QString::fromLatin1(each))) << each;
    EXPECT_EQ(nameless(*window).join(u';').toStdString(), "");
    EXPECT_EQ(cut_off(*window).join(u';').toStdString(), "");
}

TEST_F(TrustTest, CutsNothingOffInAnyTheme) {
    workbench->select(patient);
    window->choose_folder(folder_path() / "stick");
    ASSERT_NE(back_up(), "");
    window->prove_now();
    const QString at = qEnvironmentVariable("EVENFALL_PICTURES");
    const ThemeKind before = theme_in_force();
    const std::pair<ThemeKind, const char*> themes[] = {
        {ThemeKind::light, "light"}, {ThemeKind::dark, "dark"}, {ThemeKind::contrast, "contrast"}};
    for (const auto& [theme, name] : themes) {
        apply_theme(*qApp, theme);
        window->show();
        QTest::qWait(20);
        EXPECT_EQ(cut_off(*window).join(u';').toStdString(), "") << name;
        if (at.isEmpty()) continue;
        window->grab().save(at + QStringLiteral("/trust-%1.png").arg(QLatin1String(name)));
        const QSize kept = window->size();
        window->resize(kept.width(), 2400);  // all of it in one picture
        window->grab().save(at + QStringLiteral("/trust-%1-whole.png").arg(QLatin1String(name)));
        window->resize(kept);
    }
    apply_theme(*qApp, before);
}

TEST_F(TrustTest, BacksUpIntoTheChosenFolderAndKeepsTheNewest) {
    window->show();
    QTest::mouseClick(button(*window, "Back up now"), Qt::LeftButton);
    EXPECT_TRUE(shown().contains(QStringLiteral("No folder for back-ups has been chosen")));
    window->choose_folder(folder_path() / "stick");
    for (int i = 0; i < 12; ++i) {
        now += std::chrono::hours(24);
        ASSERT_NE(back_up(), "") << i;
    }
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& each : std::filesystem::directory_iterator(folder_path() / "stick"))
        ++files;
    EXPECT_EQ(files, 10U) << "the rule keeps ten";
    EXPECT_FALSE(shown().contains(QStringLiteral("There is no back-up yet")));
    EXPECT_EQ(keeper->kept().last_backup, now);
    const auto copy =
        Store::open(folder_path() / "stick" / keeper->kept().last_file, "Mara Keel", kPassphrase);
    EXPECT_TRUE(copy.ok());
}

TEST_F(TrustTest, BackingUpLeavesTheFocusWhereItWas) {
    window->choose_folder(folder_path() / "stick");
    window->show();
    window->activateWindow();
    QPushButton* back_up = button(*window, "Back up now");
    back_up->setFocus();
    QSignalSpy finished(keeper.get(), &BackupKeeper::finished);
    QTest::keyClick(back_up, Qt::Key_Space);
    ASSERT_TRUE(keeper->is_running());
    EXPECT_EQ(window->focusWidget(), back_up);
    QTest::keyClick(back_up, Qt::Key_Space);  // an impatient second press begins nothing
    ASSERT_TRUE(QTest::qWaitFor([&] { return !finished.isEmpty(); }));
    EXPECT_EQ(window->focusWidget(), back_up);
    EXPECT_EQ(finished.size(), 1);
}

TEST_F(TrustTest, ProvesAgainstTheNewestBackUp) {
    window->show();
    window->choose_folder(folder_path() / "stick");
    window->prove_now();
    EXPECT_TRUE(shown().contains(QStringLiteral("the file alone cannot show it")));
    ASSERT_NE(back_up(), "");
    window->prove_now();
    EXPECT_TRUE(shown().contains(QStringLiteral("Compared with the newest back-up")));
    EXPECT_TRUE(shown().contains(QStringLiteral("Every entry stands as its author wrote it.")));
    EXPECT_TRUE(keeper->kept().proof_whole);
    EXPECT_EQ(keeper->kept().last_proof, now);
}

TEST_F(TrustTest, ListsWhoOpenedWhom) {
    workbench->select(patient);
    window->show();
    EXPECT_TRUE(shown().contains(QStringLiteral("Mara Keel opened 0417"))) << shown().toStdString();
    EXPECT_EQ(store->accesses()->size(), 1U);
}

TEST_F(TrustTest, ARestoreShowsWhatIsLostAndAsksFirst) {
    window->show();
    window->choose_folder(folder_path() / "stick");
    const std::filesystem::path copy = folder_path() / "stick" / back_up();
    ASSERT_TRUE(
        store->append({{{}, patient, "note-added", 1, Body(nlohmann::json{{"text", "later"}})}}).ok());
    QString asked;
    bool agree = false;
    const auto answer = [&] {
        for (QWidget* each : QApplication::topLevelWidgets())
            if (auto* dialog = qobject_cast<QDialog*>(each); dialog && dialog->isVisible()) {
                for (const QLabel* label : dialog->findChildren<QLabel*>()) asked += label->text() + u'\n';
                agree ? dialog->accept() : dialog->reject();
            }
    };
    QTimer::singleShot(0, answer);
    window->offer_restore(copy);
    EXPECT_TRUE(asked.contains(QStringLiteral("0417: 0 entries gained, 1 lost"))) << asked.toStdString();
    EXPECT_TRUE(restored.empty()) << "nothing happens without a yes";
    agree = true;
    QTimer::singleShot(0, answer);
    window->offer_restore(copy);
    EXPECT_EQ(restored, copy);
}

TEST_F(TrustTest, ChangesThePassphraseOffTheWindowsThread) {
    PassphraseDialog dialog(workbench->texts(), store->passphrase_change());
    dialog.show();
    const auto fields = dialog.findChildren<QLineEdit*>();
    ASSERT_EQ(fields.size(), 3);
    const auto type = [&](const char* old, const char* fresh) {
        fields[0]->setText(QString::fromLatin1(old));
        fields[1]->setText(QString::fromLatin1(fresh));
        fields[2]->setText(QString::fromLatin1(fresh));
        dialog.accept();
        return QTest::qWaitFor([&] { return fields[0]->text().isEmpty(); });
    };
    EXPECT_TRUE(type("not this one", "another set of words"));
    EXPECT_TRUE(dialog.isVisible());
    EXPECT_TRUE(type(kPassphrase.c_str(), "another set of words"));
    EXPECT_FALSE(dialog.isVisible());
    EXPECT_TRUE(store->passphrase_proof()("another set of words").ok());
    EXPECT_FALSE(store->passphrase_proof()(kPassphrase).ok());
}

TEST(UnlockWaitTest, CountsDownTheSecondsThatAreLeft) {
    std::vector<int> told;
    UnlockWait wait([&](const Faults& faults, int left) {
        told.push_back(left);
        EXPECT_EQ(faults.empty(), left == 0);
        EXPECT_EQ(UnlockWait::seconds_in(faults), left);
    });
    wait.begin({{"store-wrong-passphrase", "", {}}, {"store-wait", "", {{"seconds", "2"}}}});
    EXPECT_TRUE(wait.is_waiting());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !wait.is_waiting(); }, 10'000));
    EXPECT_EQ(told, (std::vector<int>{2, 1, 0}));
}

TEST(LockCoverTest, SaysHowLongToWait) {
    const auto texts = Texts::load(resources_folder(), "en");
    QWidget window;
    LockCover cover(*texts, QStringLiteral("Mara Keel"), Lock::of([](const std::string&) -> Result<Done> {
        return Faults{{"store-wrong-passphrase", "", {}}, {"store-wait", "", {{"seconds", "30"}}}};
    }),
                    &window);
    window.show();
    cover.cover();
    QTest::keyClicks(cover.passphrase(), QStringLiteral("wrong"));
    QTest::keyClick(cover.passphrase(), Qt::Key_Return);
    const auto says = [&] {
        for (const QLabel* label : cover.findChildren<QLabel*>())
            if (label->text().contains(QStringLiteral("30 seconds"))) return true;
        return false;
    };
    EXPECT_TRUE(QTest::qWaitFor(says));
    EXPECT_TRUE(cover.is_covering());
}

}  // namespace evenfall::ui
