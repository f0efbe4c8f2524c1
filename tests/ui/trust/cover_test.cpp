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
        services.make_trust = [this](Workbench& bench, QWidget* parent) -> QWidget* {
            return new TrustWindow(bench, *store, *keeper, {}, parent);
        };
        main = std::make_unique<MainWindow>(*workbench, std::vector<PageMaker>{}, std::move(services));
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

TEST_F(CoverTest, TheWindowOfSafeKeepingIsClosedWithIt) {
    workbench->select(patient);
    main->show_trust();
    main->cover();
    for (QWidget* each : QApplication::topLevelWidgets())
        EXPECT_TRUE(each == main.get() || each == window.get() || !each->isVisible())
            << each->windowTitle().toStdString();
}

}  // namespace evenfall::ui
