// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/lock.h"
#include "shell/main_window.h"
#include "ui/trust/trust_fixture.h"

// What a picture of the covered window shows: nothing of anyone.

namespace evenfall::ui {
namespace {

class CoverTest : public TrustTest {
  protected:
    CoverTest() {
        QApplication::setCursorFlashTime(0);
        other = add_person(*workbench, "Salma Idris", "0533");
        WindowServices services;
        services.prove = store->passphrase_proof();
        services.lock = {store->unlocking(), [this] { store->forget_keys(); }};
        services.make_trust = [this](Workbench& bench, QWidget* parent) -> QWidget* {
            return new TrustWindow(bench, *store, *keeper, {}, parent);
        };
        main = std::make_unique<MainWindow>(*workbench, std::vector<PageMaker>{}, std::move(services));
        QObject::connect(main->lock_cover(), &LockCover::uncovered, keeper.get(), &BackupKeeper::unlocked);
        main->show();
    }
    QImage picture() {
        QTest::qWait(20);
        return main->grab().toImage();
    }
    void uncover() {
        LockCover* cover = main->lock_cover();
        QTest::keyClicks(cover->passphrase(), QString::fromStdString(kPassphrase));
        QTest::keyClick(cover->passphrase(), Qt::Key_Return);
        ASSERT_TRUE(QTest::qWaitFor([cover] { return !cover->is_covering(); }));
    }

    PatientId other;
    std::unique_ptr<MainWindow> main;
};

}  // namespace

TEST_F(CoverTest, APictureOfACoveredWindowIsTheSameWhoeverIsBeneath) {
    workbench->select(patient);
    const QImage open_on_one = picture();
    main->cover();
    const QImage covered_on_one = picture();
    uncover();
    workbench->select(other);
    EXPECT_NE(picture(), open_on_one) << "two people look different while nothing covers them";
    main->cover();
    EXPECT_EQ(picture(), covered_on_one);
    EXPECT_FALSE(main->windowTitle().contains(QStringLiteral("Idris")));
}

TEST_F(CoverTest, TheKeysAreForgottenAndComeBackWithThePassphraseAlone) {
    workbench->select(patient);
    ASSERT_TRUE(workbench->desk().put_draft(patient, "check-in", "typed before"));
    main->cover();
    EXPECT_TRUE(store->locked());
    EXPECT_FALSE(workbench->desk().read_draft(patient, "check-in"));
    QTest::keyClicks(main->lock_cover()->passphrase(), QStringLiteral("not the passphrase"));
    QTest::keyClick(main->lock_cover()->passphrase(), Qt::Key_Return);
    QTest::qWait(300);
    EXPECT_TRUE(main->lock_cover()->is_covering());
    EXPECT_TRUE(store->locked());
    ASSERT_TRUE(QTest::qWaitFor([this] { return main->lock_cover()->findChild<QPushButton*>()->isEnabled(); },
                                20'000));
    uncover();
    EXPECT_FALSE(store->locked());
    EXPECT_EQ(workbench->desk().read_draft(patient, "check-in").value(), "typed before");
    EXPECT_TRUE(workbench->carry_out({NoteAdded{"after unlocking"}}));
}

TEST_F(CoverTest, ABackUpThatRunsWhileTheWindowIsLockedIsNotedAfterwards) {
    keeper->choose_folder(folder_path() / "stick");
    keeper->back_up_now();
    main->cover();
    QTest::qWait(500);
    uncover();
    ASSERT_TRUE(QTest::qWaitFor([this] { return keeper->kept().last_backup != Instant{}; }, 20'000));
    EXPECT_TRUE(keeper->kept().failure.empty());
    EXPECT_FALSE(keeper->is_running());
}

TEST_F(CoverTest, TheWindowOfSafeKeepingIsClosedWithIt) {
    workbench->select(patient);
    main->show_trust();
    main->cover();
    for (QWidget* each : QApplication::topLevelWidgets())
        EXPECT_TRUE(each == main.get() || each == window.get() || !each->isVisible())
            << each->windowTitle().toStdString();
}

}  // namespace evenfall::ui
