// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAbstractItemView>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QTest>

#include <gtest/gtest.h>

#include "casework/store_log.h"
#include "shell/caseload_pane.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

/// More people than are read at once, in a sealed store.
class LongCaseload : public testing::Test {
  protected:
    void SetUp() override {
        StoreOptions options;
        options.kdf = crypto::Kdf::least();
        Store store = Store::in_memory("Hill Street", {"Ada", Role::prescriber, ""}, options);
        std::vector<Event> events;
        for (int number = 0; number < kPeople; ++number) {
            const PatientId id = crypto::new_id();
            Person person;
            person.name = "Person " + std::to_string(number);
            person.reference = std::to_string(1000 + number);
            events.push_back(write_change("", id, person));
            if (number == kPeople - 1)
                events.push_back(write_change(
                    "", id, CheckIn{invented_now() - std::chrono::hours(1), {{"seizure", "yes"}}, ""}));
        }
        ASSERT_TRUE(store.append(std::move(events)));
        const Worker worker = worker_of(store);
        auto desk = Desk::open(std::make_unique<StoreLog>(std::move(store)),
                               load_formulary(resources_folder() / "formulary.json").value(),
                               Rules::load(resources_folder() / "rules.json").value(), worker);
        ASSERT_TRUE(desk);
        workbench_ = std::make_unique<Workbench>(std::move(*desk),
                                                 Texts::load(resources_folder(), "en").value(), invented_now);
    }
    std::string words(const QWidget& pane) {
        std::string all;
        for (const QLabel* label : pane.findChildren<QLabel*>())
            if (label->isVisible()) all += label->text().toStdString() + "\n";
        return all;
    }

    static constexpr int kPeople = 80;
    std::unique_ptr<Workbench> workbench_;
};

TEST_F(LongCaseload, IsFilledWhileTheWindowWorksAndSaysSo) {
    CaseloadPane pane(*workbench_);
    pane.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&pane));
    auto* print = pane.findChild<QPushButton*>();
    for (QPushButton* each : pane.findChildren<QPushButton*>())
        if (each->text() == QStringLiteral("Print")) print = each;
    if (pane.model().missing() > 0) {
        EXPECT_NE(words(pane).find("Reading the records"), std::string::npos);
        EXPECT_FALSE(print->isEnabled()) << "a list that lacks people is not printed";
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return pane.model().missing() == 0; }));
    EXPECT_EQ(pane.model().people(), kPeople);
    EXPECT_EQ(words(pane).find("Reading the records"), std::string::npos);
    EXPECT_TRUE(print->isEnabled());
    EXPECT_EQ(pane.model().shown().front().reasons.front().flag.rule, "red-flag-seizure");
}

TEST_F(LongCaseload, ANewEntryIsInItsPlaceAtOnce) {
    CaseloadPane pane(*workbench_);
    pane.show();
    ASSERT_TRUE(QTest::qWaitFor([&] { return pane.model().missing() == 0; }));
    const PatientId patient = pane.model().shown().back().patient;
    workbench_->select(patient);
    ASSERT_TRUE(workbench_->carry_out({CheckIn{workbench_->now(), {{"suicidal thoughts", "yes"}}, ""}}));
    const auto shown = pane.model().shown();
    EXPECT_EQ(shown.size(), static_cast<std::size_t>(kPeople));
    EXPECT_TRUE(shown[0].patient == patient || shown[1].patient == patient);
}

TEST_F(LongCaseload, TheFilterOpensAsWideAsItsWords) {
    CaseloadPane pane(*workbench_);
    pane.show();
    ASSERT_TRUE(QTest::qWaitFor([&] { return pane.model().missing() == 0; }));
    const QComboBox* filter = pane.filter_box();
    for (int at = 0; at < filter->count(); ++at)
        EXPECT_GE(filter->view()->minimumWidth(),
                  filter->fontMetrics().horizontalAdvance(filter->itemText(at)));
}

}  // namespace
}  // namespace evenfall::ui
