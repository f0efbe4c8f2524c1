// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/stabilization_page.h"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <algorithm>

#include <gtest/gtest.h>

#include "casework/record_check.h"
#include "record/users.h"
#include "stabilization/charts.h"
#include "stabilization/check_words.h"
#include "stabilization/proposal_card.h"
#include "theme/theme.h"
#include "ui/support/invented_clinic.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

/// Ana takes alprazolam 1.5 mg a day in two doses far apart, and keeps a diary for three weeks.
class StabilizationPageTest : public testing::Test {
  protected:
    void SetUp() override { begin(Role::prescriber); }
    void begin(Role role) {
        page.reset();
        bench = empty_workbench(role);
        bench->show_faults = [this](const Faults& faults) { shown = faults; };
        bench->select(add_person(*bench, "Ana Ferro", "0900"));
    }
    Change regimen() {
        RegimenRecorded recorded;
        recorded.regimen.from = bench->today() - days(60);
        for (const int hour : hours_)
            recorded.regimen.regimen.doses.push_back(
                {{hour * 60}, "alprazolam", Dose::micrograms(750), "", ""});
        return recorded;
    }
    /// Every `skip`th dose is not taken and taken double hours later; 0: all as planned.
    void keep_diary(int skip) {
        IntakeNoted taken;
        SymptomsNoted rated;
        int number = 0;
        for (int back = 21; back >= 1; --back) {
            const Day day = bench->today() - days(back);
            for (const int hour : hours_) {
                const bool odd = skip > 0 && ++number % skip == 0;
                taken.entries.push_back({at_clock(day, {odd ? hour * 60 + 150 : hour * 60 + 5}),
                                         "alprazolam",
                                         Dose::micrograms(odd ? 1500 : 750),
                                         TakenWhy::unsaid,
                                         {}});
            }
            for (const int hour : {11, 15, 19})
                rated.entries.push_back({at_clock(day, {hour * 60}), "anxiety", hour / 4 + back % 2});
        }
        ASSERT_TRUE(bench->carry_out(
            {regimen(), taken, rated,
             ProductsChosen{{{"alprazolam", Form::tablet, Dose::micrograms(250), Cuts::halves, {}}}}}));
    }
    void open() {
        page = std::make_unique<StabilizationPage>(*bench);
        page->resize(900, 900);
        page->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
        settle();
    }
    void settle() {
        ASSERT_TRUE(QTest::qWaitFor([this] { return !page->busy(); }, 20'000));
    }
    QString label(const char* name) {
        const auto* found = page->findChild<QLabel*>(QString::fromLatin1(name));
        return found ? found->text() : QString();
    }
    StabilizationCheck computed() {
        return check_stabilization(check_input_of(*bench->record(), bench->course(), bench->now(), 90),
                                   bench->desk().formulary(), bench->desk().rules(), Zone::of_machine());
    }

    std::vector<int> hours_ = {8, 14};
    std::unique_ptr<Workbench> bench;
    Faults shown;
    std::unique_ptr<StabilizationPage> page;
};

TEST_F(StabilizationPageTest, SaysTheVerdictThatTheCheckReaches) {
    for (const int skip : {0, 2, 5}) {
        begin(Role::prescriber);
        keep_diary(skip);
        open();
        const StabilizationCheck check = computed();
        EXPECT_EQ(label("verdict").toStdString(), bench->texts().text(verdict_text(check.verdict))) << skip;
        ASSERT_NE(page->shown(), nullptr);
        EXPECT_EQ(page->shown()->check.verdict, check.verdict);
        EXPECT_EQ(page->shown()->check.flags, check.flags);
    }
}

TEST_F(StabilizationPageTest, TellsASteadyDiaryFromAnErraticOne) {
    keep_diary(0);
    open();
    EXPECT_EQ(page->shown()->check.verdict, Verdict::steady);
    EXPECT_TRUE(label("means").contains(QStringLiteral("gates"))) << label("means").toStdString();
    begin(Role::prescriber);
    keep_diary(2);
    open();
    EXPECT_NE(page->shown()->check.verdict, Verdict::steady);
}

TEST_F(StabilizationPageTest, SaysWhyInItsFirstCardWithTheOpenGatesFirst) {
    keep_diary(2);
    open();
    const StabilizationCheck& check = page->shown()->check;
    EXPECT_TRUE(label("reason").startsWith(bench->sentence(check.flags.front())));
    QStringList marks;
    for (const QLabel* each : page->findChildren<QLabel*>())
        if (each->accessibleName() == QStringLiteral("Not met") ||
            each->accessibleName() == QStringLiteral("Met"))
            marks << each->accessibleName();
    EXPECT_EQ(marks.size(), std::ssize(check.readiness));
    EXPECT_FALSE(marks.join(QLatin1Char(' ')).contains(QStringLiteral("Met Not met")))
        << marks.join(u' ').toStdString();
}

TEST_F(StabilizationPageTest, AnswersWhyForEveryMeasureWithItsRuleAndSource) {
    keep_diary(2);
    open();
    int answered = 0;
    for (const MeasureRow& row : measure_rows(page->shown()->check)) {
        EXPECT_FALSE(row.because.isEmpty());
        if (!row.rule.empty()) {
            EXPECT_TRUE(rule_in_words(bench->desk().rules(), row.rule).contains(QStringLiteral("Source: ")))
                << row.rule;
        }
        for (const QPushButton* button : page->findChildren<QPushButton*>())
            answered += button->accessibleName() == QStringLiteral("Why? ") + row.what;
    }
    EXPECT_EQ(answered, std::ssize(measure_rows(page->shown()->check)));
}

TEST_F(StabilizationPageTest, SendsAnEntryToItsDayInTheDiary) {
    keep_diary(2);
    open();
    QSignalSpy wanted(bench.get(), &Workbench::page_wanted);
    QListWidget* entries = nullptr;
    for (QListWidget* each : page->findChildren<QListWidget*>())
        if (each->isVisible()) entries = each;
    ASSERT_NE(entries, nullptr);
    ASSERT_GT(entries->count(), 0);
    entries->setFocus();
    entries->setCurrentRow(0);
    QTest::keyClick(entries, Qt::Key_Return);
    ASSERT_GE(wanted.count(), 1);
    EXPECT_EQ(wanted.front().front().toString(),
              QStringLiteral("diary/") + entries->item(0)->data(Qt::UserRole).toString());
}

TEST_F(StabilizationPageTest, WritesAnAcceptedProposalAsTheRegimenFromTomorrowOn) {
    keep_diary(0);
    open();
    const auto& proposals = page->shown()->check.proposals;
    const auto spacing = std::ranges::find(proposals, ProposalKind::spacing, &Proposal::kind);
    ASSERT_NE(spacing, proposals.end());
    const Proposal proposal = *spacing;
    const auto cards = page->findChildren<ProposalCard*>();
    ASSERT_EQ(cards.size(), std::ssize(proposals));
    cards[spacing - proposals.begin()]->accept()->click();
    settle();
    ASSERT_TRUE(shown.empty());
    const auto& recorded = bench->record()->regimens.back().value;
    EXPECT_EQ(recorded.regimen.from, bench->today() + days(1));
    EXPECT_EQ(daily_amount(recorded.regimen.regimen, "alprazolam"), Dose::micrograms(1500));
    ASSERT_EQ(recorded.regimen.regimen.doses.size(), proposal.doses.size());
    for (std::size_t i = 0; i < proposal.doses.size(); ++i) {
        EXPECT_EQ(recorded.regimen.regimen.doses[i].at, proposal.doses[i].at);
        EXPECT_EQ(recorded.regimen.regimen.doses[i].amount, proposal.doses[i].amount);
    }
    ASSERT_TRUE(bench->record()->next_contact);
    EXPECT_EQ(bench->record()->next_contact->value.on, bench->today() + days(8));
    EXPECT_FALSE(bench->record()->notes.empty());
}

TEST_F(StabilizationPageTest, WritesEachStageOfAnAcceptedCrossoverFromItsOwnDay) {
    hours_ = {9, 21};  // already as far apart as two doses can be
    keep_diary(0);
    open();
    const auto& proposals = page->shown()->check.proposals;
    const auto found = std::ranges::find(proposals, ProposalKind::crossover, &Proposal::kind);
    ASSERT_NE(found, proposals.end());
    const Proposal crossover = *found;
    ASSERT_TRUE(page->accept(crossover));
    settle();
    const auto& regimens = bench->record()->regimens;
    ASSERT_EQ(regimens.size(), 1 + crossover.stages.size());
    for (std::size_t i = 0; i < crossover.stages.size(); ++i) {
        const DatedRegimen& written = regimens[i + 1].value.regimen;
        EXPECT_EQ(written.from, bench->today() + days(1 + crossover.stages[i].starts_after_days));
        EXPECT_EQ(written.regimen.doses.size(), crossover.stages[i].doses.size());
    }
}

TEST_F(StabilizationPageTest, LeavesAcceptingToAPrescriber) {
    begin(Role::nurse);
    keep_diary(0);
    open();
    for (const ProposalCard* card : page->findChildren<ProposalCard*>())
        EXPECT_EQ(card->accept()->isEnabled(), may(Role::nurse, "regimen-recorded"));
}

TEST_F(StabilizationPageTest, SaysHowToBeginWhereThereIsNoDiary) {
    open();
    EXPECT_EQ(page->shown(), nullptr);
    QSignalSpy wanted(bench.get(), &Workbench::page_wanted);
    for (QPushButton* button : page->findChildren<QPushButton*>())
        if (button->isVisible()) button->click();
    EXPECT_GE(wanted.count(), 1);
}

TEST_F(StabilizationPageTest, DropsAResultThatAnotherPersonOvertook) {
    keep_diary(2);
    open();
    page->refresh();
    bench->select(add_person(*bench, "Ben Lund", "0901"));
    settle();
    EXPECT_EQ(page->shown(), nullptr);
}

TEST_F(StabilizationPageTest, NamesEveryControlAndDescribesEveryPictureInEveryTheme) {
    keep_diary(5);
    open();
    for (const ThemeKind kind : {ThemeKind::light, ThemeKind::dark, ThemeKind::contrast}) {
        apply_theme(*qApp, kind);
        QTest::qWait(0);
        EXPECT_EQ(nameless(*page).join(QStringLiteral("; ")).toStdString(), "");
        EXPECT_EQ(cut_off(*page).join(QStringLiteral("; ")).toStdString(), "");
    }
    apply_theme(*qApp, ThemeKind::light);
    const auto* chart = page->findChild<DayLevelChart*>();
    ASSERT_NE(chart, nullptr);
    EXPECT_TRUE(chart->accessibleDescription().contains(QStringLiteral("Modelled")));
    EXPECT_FALSE(page->findChild<IntervalChart*>()->accessibleDescription().isEmpty());
}

}  // namespace
}  // namespace evenfall::ui
