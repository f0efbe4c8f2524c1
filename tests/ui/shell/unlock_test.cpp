// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/unlock.h"

#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include "store/exchange_file.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

constexpr const char* kPassphrase = "four unrelated words here";

class UnlockTest : public testing::Test {
  protected:
    UnlockTest() {
        options.kdf = crypto::Kdf::least();
        file = std::filesystem::path(folder.path().toStdString()) / "clinic.evenfall";
    }
    QLineEdit* field(QWidget& root, const char* name) {
        for (QLineEdit* line : root.findChildren<QLineEdit*>())
            if (line->isVisible() && line->accessibleName() == QString::fromLatin1(name)) return line;
        return nullptr;
    }
    void type(QWidget& root, const char* name, const QString& text) {
        QLineEdit* line = field(root, name);
        ASSERT_NE(line, nullptr) << name;
        line->clear();
        QTest::keyClicks(line, text);
    }
    QString said(QWidget& root) {
        for (UnlockStep* step : root.findChildren<UnlockStep*>())
            if (step->isVisible()) return step->said();
        return {};
    }
    void commit(QWidget& root) {
        for (UnlockStep* step : root.findChildren<UnlockStep*>())
            if (step->isVisible()) return QTest::mouseClick(step->commit_button(), Qt::LeftButton);
    }
    void fill_first_run(QWidget& door) {
        type(door, "Clinic, as its papers name it", QStringLiteral("Harbour Lane"));
        type(door, "Your name", QStringLiteral("Mara Keel"));
        type(door, "Passphrase", QString::fromLatin1(kPassphrase));
        type(door, "Passphrase again", QString::fromLatin1(kPassphrase));
    }
    /// Answers the question for a group of the key, as somebody with the paper would.
    void type_group(UnlockWindow& door) {
        const QStringList groups =
            door.recovery_key().split(QRegularExpression(QStringLiteral("[^0-9A-Z]+")), Qt::SkipEmptyParts);
        ASSERT_EQ(groups.size(), 7);
        int asked = 0;
        static const QRegularExpression number(QStringLiteral("group ([1-7])"));
        for (const QLabel* label : door.findChildren<QLabel*>())
            if (const auto match = number.match(label->text()); label->isVisible() && match.hasMatch())
                asked = match.captured(1).toInt();
        ASSERT_GE(asked, 1);
        type(door, "One group of the key", groups[asked - 1].toLower());
    }

    QTemporaryDir folder;
    std::filesystem::path file;
    StoreOptions options;
    Result<Texts> texts = Texts::load(resources_folder(), "en");
};

TEST_F(UnlockTest, MakesAStoreAndOpensItAgain) {
    {
        UnlockWindow door(file, *texts, options);
        QSignalSpy opened(&door, &UnlockWindow::opened);
        door.show();
        EXPECT_EQ(nameless(door).join(QStringLiteral("; ")).toStdString(), "");
        fill_first_run(door);
        commit(door);
        ASSERT_TRUE(QTest::qWaitFor([&door] { return !door.recovery_key().isEmpty(); }));
        EXPECT_EQ(nameless(door).join(QStringLiteral("; ")).toStdString(), "");
        type(door, "One group of the key", QStringLiteral("XXXXX"));
        commit(door);
        EXPECT_EQ(opened.count(), 0) << "the key has to be on paper first";
        EXPECT_FALSE(said(door).isEmpty());
        type_group(door);
        commit(door);
        ASSERT_EQ(opened.count(), 1);
        EXPECT_TRUE(door.recovery_key().isEmpty()) << "the key is kept nowhere";
        const auto store = door.take_store();
        ASSERT_TRUE(store.has_value());
        EXPECT_EQ(store->user().grant.name, "Mara Keel");
        EXPECT_EQ(door.new_clinic(), QStringLiteral("Harbour Lane"));
    }
    UnlockWindow door(file, *texts, options);
    QSignalSpy opened(&door, &UnlockWindow::opened);
    door.show();
    type(door, "Your name", QStringLiteral("Mara Keel"));
    type(door, "Your passphrase", QStringLiteral("not this one"));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !said(door).isEmpty(); }));
    EXPECT_EQ(opened.count(), 0);
    EXPECT_FALSE(said(door).contains(u'[')) << said(door).toStdString();
    type(door, "Your passphrase", QString::fromLatin1(kPassphrase));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return opened.count() == 1; }));
    EXPECT_TRUE(door.take_store().has_value());
}

TEST_F(UnlockTest, ANewLaptopJoinsAClinicByAnExchangeFile) {
    const std::filesystem::path elsewhere = file.parent_path() / "other.evenfall";
    const std::filesystem::path stick = file.parent_path() / "stick.evenfall-exchange";
    {
        auto there = Store::create(elsewhere, "Harbour Lane", {"Mara Keel", Role::prescriber, ""},
                                   kPassphrase, options);
        ASSERT_TRUE(there.ok());
        ASSERT_TRUE(write_exchange(there->store, stick, false).ok());
    }
    UnlockWindow door(file, *texts, options);
    QSignalSpy opened(&door, &UnlockWindow::opened);
    door.show();
    for (QPushButton* each : door.findChildren<QPushButton*>())
        if (each->isVisible() && each->text() == QStringLiteral("Join a clinic"))
            QTest::mouseClick(each, Qt::LeftButton);
    EXPECT_EQ(nameless(door).join(QStringLiteral("; ")).toStdString(), "");
    EXPECT_EQ(cut_off(door).join(QStringLiteral("; ")).toStdString(), "");
    const QString pictures = qEnvironmentVariable("EVENFALL_PICTURES");
    if (!pictures.isEmpty()) door.grab().save(pictures + QStringLiteral("/join.png"));
    type(door, "Exchange file", QString::fromStdString(stick.string()));
    type(door, "Your name there", QStringLiteral("Mara Keel"));
    type(door, "Your passphrase there", QStringLiteral("not this one"));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !said(door).isEmpty(); }));
    EXPECT_FALSE(std::filesystem::exists(file)) << "nothing is left of a joining that failed";
    type(door, "Your passphrase there", QString::fromLatin1(kPassphrase));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return opened.count() == 1; }));
    EXPECT_EQ(door.take_store()->clinic(), "Harbour Lane");
    EXPECT_TRUE(door.new_clinic().isEmpty()) << "the clinic has its settings already";
}

TEST_F(UnlockTest, AsksAgainWhereThePassphrasesDiffer) {
    UnlockWindow door(file, *texts, options);
    door.show();
    fill_first_run(door);
    type(door, "Passphrase again", QStringLiteral("four unrelated words hare"));
    commit(door);
    EXPECT_FALSE(said(door).isEmpty());
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST_F(UnlockTest, SaysInWordsThatAPassphraseIsTooShort) {
    UnlockWindow door(file, *texts, options);
    door.show();
    fill_first_run(door);
    type(door, "Passphrase", QStringLiteral("short"));
    type(door, "Passphrase again", QStringLiteral("short"));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !said(door).isEmpty(); }));
    EXPECT_FALSE(said(door).contains(u'[')) << said(door).toStdString();
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST_F(UnlockTest, SaysInWordsThatAFileIsNoStore) {
    QFile other(QString::fromStdString(file.string()));
    ASSERT_TRUE(other.open(QIODevice::WriteOnly));
    other.write(QByteArray(9000, 'x'));
    other.close();
    UnlockWindow door(file, *texts, options);
    door.show();
    type(door, "Your name", QStringLiteral("Mara Keel"));
    type(door, "Your passphrase", QString::fromLatin1(kPassphrase));
    commit(door);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !said(door).isEmpty(); }));
    EXPECT_FALSE(said(door).contains(u'[')) << said(door).toStdString();
}

}  // namespace
}  // namespace evenfall::ui
