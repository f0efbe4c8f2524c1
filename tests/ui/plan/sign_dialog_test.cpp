// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/sign_dialog.h"

#include <atomic>
#include <thread>

#include "ui/acceptance/hands.h"
#include "ui/plan/plan_page_fixture.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

class SignDialogTest : public testing::Test {
  protected:
    static SignRequest request(bool against = false) {
        SignRequest asked{QStringLiteral("Sign the step to 2.25 mg a day?"),
                          QStringLiteral("It cannot be unsigned."),
                          QStringLiteral("Sign the next step"),
                          {{QStringLiteral("From Mon 7 Dec 2026: 2.25 mg a day"), {}}},
                          {}};
        if (against) asked.objections = {{{"cut-over-cap", {{"percent", "20"}, {"cap", "10"}}, {}}, true}};
        return asked;
    }
    Bench bench;
};

TEST_F(SignDialogTest, ItNamesThePersonAndFocusNeverBeginsOnSigning) {
    SignDialog dialog(*bench.bench, request());
    dialog.show();
    settle();
    const std::string words = words_of(dialog);
    for (const char* says : {"Jonas Hale", "0417", "A. Prescriber", "2.25 mg", "knows no passphrase"})
        EXPECT_NE(words.find(says), std::string::npos) << says << "\n" << words;
    auto* focus = qobject_cast<QAbstractButton*>(dialog.focusWidget());
    ASSERT_NE(focus, nullptr);
    EXPECT_EQ(focus->text().toStdString(), "Go back");
    EXPECT_EQ(nameless(dialog).join(QStringLiteral("; ")).toStdString(), "");
    QTest::keyClick(focus, Qt::Key_Return);
    EXPECT_EQ(dialog.result(), QDialog::Rejected);
}

TEST_F(SignDialogTest, EachRuleTakesAReasonBeforeItCanBeSigned) {
    SignDialog dialog(*bench.bench, request(true));
    dialog.show();
    auto* commit = find_named<QAbstractButton>(dialog, QStringLiteral("Sign the next step"));
    EXPECT_FALSE(commit->isEnabled());
    const QString name =
        QStringLiteral("Reason for going beyond: This cut is 20 % of the current dose; the cap is 10 %.");
    auto* reason = find_named<QLineEdit>(dialog, name);
    ASSERT_NE(reason, nullptr) << words_of(dialog);
    QTest::keyClicks(reason, QStringLiteral("short"));
    EXPECT_FALSE(commit->isEnabled());
    QTest::keyClicks(reason, QStringLiteral(" but long enough"));
    EXPECT_TRUE(commit->isEnabled());
    commit->click();
    EXPECT_EQ(dialog.result(), QDialog::Accepted);
    EXPECT_EQ(dialog.overrides().front().reason, "short but long enough");
}

TEST_F(SignDialogTest, TheProofRunsBesideTheWindowsThreadAndAWrongPassphraseSignsNothing) {
    std::atomic<std::thread::id> proved_on;
    std::atomic<bool> may_end = false;
    bench.bench->prove = [&](const std::string& typed) -> Result<Done> {
        proved_on = std::this_thread::get_id();
        while (!may_end) std::this_thread::yield();
        if (typed == "four unrelated words here") return Done{};
        return Fault{"store-wrong-passphrase", "passphrase", {}};
    };
    SignDialog dialog(*bench.bench, request());
    dialog.show();
    auto* field = find_named<QLineEdit>(dialog, QStringLiteral("Your passphrase"));
    ASSERT_NE(field, nullptr);
    EXPECT_EQ(dialog.focusWidget(), field);
    EXPECT_EQ(field->echoMode(), QLineEdit::Password);
    auto* commit = find_named<QAbstractButton>(dialog, QStringLiteral("Sign the next step"));
    ASSERT_NE(commit, nullptr);
    QTest::keyClicks(field, QStringLiteral("wrong"));
    QTest::keyClick(field, Qt::Key_Return);
    EXPECT_EQ(commit->text().toStdString(), "Checking…");
    EXPECT_FALSE(commit->isEnabled());
    may_end = true;
    ASSERT_TRUE(QTest::qWaitFor([&] { return field->text().isEmpty(); }));
    EXPECT_TRUE(dialog.isVisible());
    QTest::keyClicks(field, QStringLiteral("four unrelated words here"));
    QTest::keyClick(field, Qt::Key_Return);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !dialog.isVisible(); }));
    EXPECT_EQ(dialog.result(), QDialog::Accepted);
    EXPECT_NE(proved_on.load(), std::this_thread::get_id());
}

}  // namespace
}  // namespace evenfall::ui
