// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QComboBox>
#include <QFileInfo>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTest>

#include <gtest/gtest.h>

#include "papers/code.h"
#include "papers/mark.h"
#include "papers/missing_panel.h"
#include "papers/paper_check.h"
#include "papers/papers_page.h"
#include "papers/sample.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

/// Waits until everybody's records were looked through.
void finish(const PaperCheck& check) {
    ASSERT_TRUE(QTest::qWaitFor([&] { return !check.busy(); }, 30'000));
}

/// A workbench with one person on clonazepam whose first two steps are signed.
class PapersOfOnePerson : public testing::Test {
  protected:
    PapersOfOnePerson() : workbench_(empty_workbench()) {
        workbench_->ask_overrides = [](const std::vector<Objection>& objections) {
            std::vector<Override> reasons;
            for (const Objection& objection : objections)
                reasons.push_back({objection.flag.rule, "agreed with her"});
            return std::optional(reasons);
        };
        workbench_->show_faults = [](const Faults& faults) {
            FAIL() << faults.front().id << " " << faults.front().place;
        };
        workbench_->select(add_person(*workbench_, "Ana Example", "river-17"));
    }

    void sign_plan() {
        const papers::PaperSource source = papers::two_steps();
        RegimenRecorded regimen;
        regimen.regimen = {day_at(2026, 11, 1), source.regimen};
        ASSERT_TRUE(workbench_->carry_out({regimen, ProductsChosen{source.plan->products}}));
        ASSERT_TRUE(workbench_->carry_out({Suitability{SuitabilityOutcome::outpatient_taper, {}, "steady"}}));
        ASSERT_TRUE(workbench_->carry_out({PlanCommitted{*source.plan, {}, {}}}));
    }
    void enter_numbers() { ASSERT_TRUE(workbench_->carry_out_for_clinic({papers::two_steps().clinic})); }

    std::unique_ptr<Workbench> workbench_;
    QTemporaryDir folder_;
};

TEST_F(PapersOfOnePerson, WithoutASignedPlanThePageSaysWhatStandsInTheWay) {
    PapersPage page(*workbench_);
    page.refresh();
    EXPECT_FALSE(page.preview()->paper().has_value());
    EXPECT_FALSE(page.print_button()->isEnabled());
    EXPECT_FALSE(page.pdf_button()->isEnabled());
    bool no_plan = false;
    bool no_number = false;
    for (const Fault& fault : page.faults()) {
        no_plan |= fault.id == "paper-no-plan-signed";
        no_number |= fault.id == "paper-number-missing";
    }
    EXPECT_TRUE(no_plan);
    EXPECT_TRUE(no_number);
    EXPECT_TRUE(page.missing()->isVisibleTo(&page));
    EXPECT_FALSE(page.preview()->isVisibleTo(&page));
}

TEST_F(PapersOfOnePerson, MissingNumbersAreEnteredInThePlaceOfThePaper) {
    sign_plan();
    PapersPage page(*workbench_);
    page.refresh();
    QObject::connect(workbench_.get(), &Workbench::clinic_changed, &page, [&] { page.refresh(); });
    ASSERT_TRUE(page.missing()->emergency()->isVisibleTo(&page));
    EXPECT_FALSE(page.missing()->plan_button()->isVisibleTo(&page));
    page.missing()->clinic_name()->setText(QStringLiteral("Harbour Clinic"));
    page.missing()->emergency()->setText(QStringLiteral("112"));
    page.missing()->crisis()->setText(QStringLiteral("555-0199"));
    page.missing()->phone()->setText(QStringLiteral("555-0140"));
    page.missing()->after_hours()->setText(QStringLiteral("555-0141"));
    page.missing()->save_button()->click();
    page.refresh();
    EXPECT_TRUE(page.preview()->paper().has_value());
    EXPECT_TRUE(page.preview()->isVisibleTo(&page));
    EXPECT_FALSE(page.missing()->isVisibleTo(&page));
    EXPECT_EQ(workbench_->desk().clinic().crisis_number, "555-0199");
}

TEST_F(PapersOfOnePerson, APaperInHandIsToldByItsCodeOrItsMark) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    page.print = [](const PaperPainter&) { return true; };
    page.refresh();
    page.print_button()->click();
    page.refresh();
    ASSERT_EQ(page.check()->went_out().size(), 1);
    EXPECT_TRUE(page.check()->went_out().front().endsWith(QStringLiteral("current")));
    const std::string code = workbench_->record()->papers.front().value.code;
    const EventId plan = workbench_->record()->plans.back().id;
    QLineEdit* field = page.check()->field();
    field->setText(QString::fromStdString(code).toLower());
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("current version")));
    field->setText(QString::fromStdString(papers::write_mark({code, plan})));
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("current version")));
    field->setText(QStringLiteral("4F7K"));
    EXPECT_TRUE(page.check()->answer().isEmpty());
    emit field->returnPressed();
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("not a paper's code")));
    field->setText(QString::fromStdString(papers::paper_code("nobody's")));
    finish(*page.check());
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("No version of this person")));
}

TEST_F(PapersOfOnePerson, APaperOfSomeoneElseIsToldAsSuch) {
    enter_numbers();
    sign_plan();
    const std::string code = papers::code_of_version(workbench_->record()->plans.back().id, std::nullopt);
    workbench_->select(add_person(*workbench_, "Jonas Example", "0417"));
    PapersPage page(*workbench_);
    page.refresh();
    page.check()->field()->setText(QString::fromStdString(code));
    finish(*page.check());
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("river-17")));
}

TEST_F(PapersOfOnePerson, AHoldReplacesThePaperThatWentOut) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    page.print = [](const PaperPainter&) { return true; };
    page.refresh();
    page.print_button()->click();
    const std::string code = workbench_->record()->papers.front().value.code;
    const Day today = workbench_->today();
    ASSERT_TRUE(workbench_->carry_out({HoldStarted{today, today + std::chrono::days(14), "hard weeks"}}));
    page.refresh();
    page.check()->field()->setText(QString::fromStdString(code));
    EXPECT_TRUE(page.check()->answer().contains(QStringLiteral("Replaced on")))
        << page.check()->answer().toStdString();
    EXPECT_TRUE(page.check()->went_out().front().contains(QStringLiteral("replaced")));
}

TEST_F(PapersOfOnePerson, AFileThatIsThereIsReplacedOnlyWhenAskedAndAgreed) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    page.refresh();
    const QString path = folder_.filePath(QStringLiteral("there.pdf"));
    QFile there(path);
    ASSERT_TRUE(there.open(QIODevice::WriteOnly));
    there.write("mine");
    there.close();
    page.ask_for_file = [&](const QString&) { return path; };
    int asked = 0;
    page.ask_to_replace = [&](const QString&) { return ++asked > 1; };
    page.pdf_button()->click();
    EXPECT_EQ(asked, 1);
    EXPECT_EQ(QFileInfo(path).size(), 4);
    EXPECT_TRUE(workbench_->record()->papers.empty());
    page.pdf_button()->click();
    EXPECT_EQ(asked, 2);
    EXPECT_GT(QFileInfo(path).size(), 1000);
}

TEST_F(PapersOfOnePerson, ASignedPlanIsPreviewedPageByPageInEverySizeAndLanguage) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    page.refresh();
    ASSERT_TRUE(page.preview()->paper().has_value()) << page.faults().front().id;
    const int pages = page.preview()->paper()->page_count();
    EXPECT_GT(pages, 1);
    page.preview()->show_page(pages - 1);
    EXPECT_EQ(page.preview()->page(), pages - 1);
    page.preview()->show_page(pages + 5);
    EXPECT_EQ(page.preview()->page(), pages - 1);
    page.large_print()->setChecked(true);
    EXPECT_GT(page.preview()->paper()->page_count(), pages);
    page.language_choice()->setCurrentIndex(1);
    EXPECT_EQ(page.preview()->paper()->document().language, "es");
    page.size_choice()->setCurrentIndex(1);
    EXPECT_EQ(page.preview()->paper()->options().size, PaperSize::letter);
}

TEST_F(PapersOfOnePerson, APrintedScheduleIsWrittenIntoTheRecordAndACautionSheetIsNot) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    int printed = 0;
    page.print = [&](const PaperPainter&) { return ++printed > 0; };
    page.refresh();
    page.choose(Paper::caution);
    page.print_button()->click();
    EXPECT_EQ(printed, 1);
    EXPECT_TRUE(workbench_->record()->papers.empty());
    page.choose(Paper::schedule);
    page.print_button()->click();
    ASSERT_EQ(workbench_->record()->papers.size(), 1u);
    const PaperIssued& issued = workbench_->record()->papers.front().value;
    EXPECT_EQ(issued.paper, "schedule");
    EXPECT_EQ(issued.valid_through, day_at(2027, 1, 31));
    EXPECT_EQ(issued.plan, workbench_->record()->plans.back().id);
    EXPECT_FALSE(issued.code.empty());
}

TEST_F(PapersOfOnePerson, SavingWritesThePdfAndLeavingWritesNothing) {
    enter_numbers();
    sign_plan();
    PapersPage page(*workbench_);
    page.refresh();
    page.ask_for_file = [](const QString&) { return QString(); };
    page.pdf_button()->click();
    EXPECT_TRUE(workbench_->record()->papers.empty());
    const QString file = folder_.filePath(QStringLiteral("a.pdf"));
    page.ask_for_file = [&](const QString&) { return file; };
    page.pdf_button()->click();
    EXPECT_TRUE(QFileInfo::exists(file));
    EXPECT_EQ(workbench_->record()->papers.size(), 1u);
}

}  // namespace
}  // namespace evenfall::ui
