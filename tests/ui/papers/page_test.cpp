// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QComboBox>
#include <QFileInfo>
#include <QPushButton>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include "papers/papers_page.h"
#include "papers/sample.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

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
        no_plan |= fault.id == "paper-no-plan";
        no_number |= fault.id == "paper-number-missing";
    }
    EXPECT_TRUE(no_plan);
    EXPECT_TRUE(no_number);
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
