// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/course_page.h"

#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QTest>

#include <gtest/gtest.h>

#include "course/course_view.h"
#include "ui/plan/sample_bench.h"
#include "ui/support/walk.h"

namespace evenfall::ui {
namespace {

class CoursePageTest : public testing::Test {
  protected:
    void open(bool with_regimen = true) {
        bench_ = std::make_unique<sample::Bench>(Role::prescriber, with_regimen);
        page_ = std::make_unique<CoursePage>(*bench_->bench);
        page_->resize(900, 760);
        page_->show();
        ASSERT_TRUE(QTest::qWaitFor([this] { return !page_->computing(); }, 20'000));
    }

    QPushButton* button(const char* words) {
        for (auto* each : page_->findChildren<QPushButton*>())
            if (each->text() == QLatin1String(words)) return each;
        return nullptr;
    }

    bool shows(const char* words) {
        for (auto* label : page_->findChildren<QLabel*>())
            if (label->isVisible() && label->text().contains(QLatin1String(words))) return true;
        return false;
    }

    std::unique_ptr<sample::Bench> bench_;
    std::unique_ptr<CoursePage> page_;
};

TEST_F(CoursePageTest, WithoutAnythingRecordedThePageSaysHowToBegin) {
    open(false);
    EXPECT_TRUE(shows("No course yet"));
    EXPECT_FALSE(page_->view()->isVisible());
}

TEST_F(CoursePageTest, WhatIsTakenNowIsShownAndExplained) {
    open();
    EXPECT_TRUE(page_->view()->isVisible());
    EXPECT_TRUE(shows("2.5 mg a day; as recorded before the plan."));
    EXPECT_FALSE(page_->view()->lanes()[2]->items().empty());
}

TEST_F(CoursePageTest, TheTableHoldsEveryItemOfEveryLane) {
    open();
    button("Show as table")->click();
    auto* table = page_->findChild<QTableView*>();
    ASSERT_TRUE(table->isVisible());
    int items = 0;
    for (const Lane* lane : page_->view()->lanes()) items += static_cast<int>(lane->items().size());
    EXPECT_GT(items, 0);
    EXPECT_EQ(table->model()->rowCount(), items);
}

TEST_F(CoursePageTest, ANewRatingReachesTheSymptomLane) {
    open();
    EXPECT_TRUE(page_->view()->lanes()[3]->items().empty());
    bench_->bench->carry_out({SymptomsNoted{{{at_clock(sample::kToday, {9 * 60}), "sleep", 6}}}});
    ASSERT_EQ(page_->view()->lanes()[3]->items().size(), 1u);
    EXPECT_TRUE(page_->view()->lanes()[3]->items()[0].name.startsWith(QLatin1String("Sleep, ")));
}

TEST_F(CoursePageTest, ARangeIsMarkedUntilTheDaysAreMovedByHand) {
    open();
    button("13 weeks")->click();
    EXPECT_TRUE(button("13 weeks")->isChecked());
    QTest::keyClick(page_->view(), Qt::Key_Plus);
    EXPECT_FALSE(button("13 weeks")->isChecked());
}

TEST_F(CoursePageTest, EveryControlHasANameAndNoWordIsCutOff) {
    open();
    button("Show as table")->click();
    EXPECT_EQ(nameless(*page_).join(QLatin1Char('\n')).toStdString(), "");
    EXPECT_EQ(cut_off(*page_).join(QLatin1Char('\n')).toStdString(), "");
}

}  // namespace
}  // namespace evenfall::ui
