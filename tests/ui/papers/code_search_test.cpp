// SPDX-License-Identifier: GPL-3.0-or-later
#include <QElapsedTimer>
#include <QLineEdit>
#include <QTest>
#include <thread>

#include <gtest/gtest.h>

#include "papers/code.h"
#include "papers/paper_check.h"
#include "papers/sample.h"
#include "ui/support/invented_clinic.h"

namespace evenfall::ui {
namespace {

constexpr std::size_t kPeople = 40;
constexpr int kReads = 4;  // milliseconds that a record takes, as one of some years does

/// What a slow log is told and tells.
struct Reads {
    std::size_t count = 0;
    std::set<PatientId> broken;
    bool locked = false;
};

/// A log whose records take their time, and which counts how many were read.
class SlowLog final : public EventLog {
  public:
    SlowLog(std::unique_ptr<EventLog> log, std::shared_ptr<Reads> reads)
        : log_(std::move(log)), reads_(std::move(reads)) {}

    Result<std::vector<StoredEvent>> append(std::vector<Event> events) override {
        return log_->append(std::move(events));
    }
    Result<std::vector<PatientId>> patients() override { return log_->patients(); }
    Result<std::vector<StoredEvent>> read(const PatientId& patient) override { return log_->read(patient); }
    Result<PatientRecord> folded(const PatientId& patient) override {
        if (reads_->locked) return Fault{"store-locked", {}, {}};
        if (reads_->broken.contains(patient)) return Fault{"store-tampered", patient, {}};
        ++reads_->count;
        std::this_thread::sleep_for(std::chrono::milliseconds(kReads));
        return log_->folded(patient);
    }
    EventId new_id() override { return log_->new_id(); }

  private:
    std::unique_ptr<EventLog> log_;
    std::shared_ptr<Reads> reads_;
};

/// Forty people, the first of whom is shown; the last has a signed plan.
class CodeOfAnybody : public testing::Test {
  protected:
    CodeOfAnybody() {
        auto formulary = load_formulary(resources_folder() / "formulary.json");
        auto rules = Rules::load(resources_folder() / "rules.json");
        const Worker worker{"mk", "Mara Keel", Role::prescriber, "L-1"};
        auto log = std::make_unique<SlowLog>(
            log_in_memory(worker.id, [] { return Instant(std::chrono::seconds(1'795'512'600)); }), reads_);
        std::vector<Event> events;
        for (std::size_t i = 0; i < kPeople; ++i) {
            Person person;
            person.name = "Person " + std::to_string(i);
            person.reference = "river-" + std::to_string(i);
            people_.push_back(log->new_id());
            events.push_back(write_change(log->new_id(), people_.back(), person));
        }
        std::ranges::sort(people_);
        plan_ = log->new_id();
        events.push_back(
            write_change(plan_, people_.back(), PlanCommitted{*papers::two_steps().plan, {}, {}}));
        if (!log->append(std::move(events))) throw std::runtime_error("the log takes nothing");
        auto desk = Desk::open(std::move(log), std::move(*formulary), std::move(*rules), worker);
        workbench_ = std::make_unique<Workbench>(std::move(*desk), papers::shipped_texts("en"), invented_now);
        workbench_->select(people_.front());
        check_ = std::make_unique<PaperCheck>(*workbench_);
        check_->refresh();
        reads_->count = 0;
    }

    void scan(const std::string& code) {
        for (std::size_t length = 1; length <= code.size(); ++length)
            check_->field()->setText(QString::fromStdString(code.substr(0, length)));
        emit check_->field()->returnPressed();
    }
    void finish() {
        ASSERT_TRUE(QTest::qWaitFor([this] { return !check_->busy(); }, 30'000));
    }
    bool says(const char* words) const { return check_->answer().contains(QString::fromUtf8(words)); }

    const std::string nobodys_ = papers::paper_code("nobody's");
    const std::shared_ptr<Reads> reads_ = std::make_shared<Reads>();
    std::vector<PatientId> people_;
    EventId plan_;
    std::unique_ptr<Workbench> workbench_;
    std::unique_ptr<PaperCheck> check_;
};

TEST_F(CodeOfAnybody, IsLookedForInTurnsAndOnce) {
    scan(nobodys_);
    EXPECT_LT(reads_->count, kPeople / 2) << "the window was held up";
    EXPECT_TRUE(check_->busy());
    EXPECT_TRUE(says("Looking through 40 people")) << check_->answer().toStdString();
    emit check_->field()->returnPressed();
    check_->refresh();
    finish();
    EXPECT_TRUE(says("No version of this person"));
    EXPECT_LE(reads_->count, kPeople);
    scan(nobodys_);
    check_->refresh();
    workbench_->select(people_.at(1));
    check_->refresh();
    EXPECT_FALSE(check_->busy());
    EXPECT_TRUE(says("No version of this person"));
    EXPECT_LE(reads_->count, kPeople + 1) << "each record is read once";
}

TEST_F(CodeOfAnybody, IsFoundInTheLastRecord) {
    scan(papers::code_of_version(plan_, std::nullopt));
    EXPECT_TRUE(check_->busy());
    finish();
    EXPECT_TRUE(says("not of this person"));
    EXPECT_TRUE(says(workbench_->desk().record(people_.back()).value()->person->value.reference.c_str()));
    workbench_->select(people_.back());
    check_->refresh();
    EXPECT_TRUE(says("current version"));
}

TEST_F(CodeOfAnybody, IsNoLongerLookedForWhereAnotherIsTyped) {
    scan(nobodys_);
    ASSERT_TRUE(check_->busy());
    check_->field()->clear();
    EXPECT_FALSE(check_->busy());
    EXPECT_TRUE(check_->answer().isEmpty());
    const std::size_t before = reads_->count;
    QTest::qWait(50);
    EXPECT_EQ(reads_->count, before);
    scan(nobodys_);
    check_.reset();  // the window closes
    const std::size_t closed = reads_->count;
    QTest::qWait(50);
    EXPECT_EQ(reads_->count, closed);
}

TEST_F(CodeOfAnybody, WhatIsWrittenMeanwhileIsSeen) {
    scan(papers::paper_code("nobody's"));
    finish();
    // Entries of the one who is shown are written between two turns, and the answer is looked at again.
    scan(papers::code_of_version(plan_, std::nullopt));
    ASSERT_TRUE(check_->busy());
    ASSERT_TRUE(workbench_->carry_out({NoteAdded{"called twice"}}));
    EXPECT_EQ(workbench_->record()->person->value.reference,
              workbench_->desk().record(people_.front()).value()->person->value.reference);
    finish();
    EXPECT_TRUE(says("not of this person"));
    ASSERT_TRUE(workbench_->carry_out_for_clinic({papers::two_steps().clinic}));
    EXPECT_TRUE(check_->busy()) << "others may have come in";
    finish();
    EXPECT_TRUE(says("not of this person"));
}

TEST_F(CodeOfAnybody, IsNotSaidToBeNobodysWhereARecordCannotBeRead) {
    reads_->broken = {people_.back()};
    scan(papers::code_of_version(plan_, std::nullopt));
    finish();
    EXPECT_TRUE(says("Records that could not be read: 1")) << check_->answer().toStdString();
}

TEST_F(CodeOfAnybody, WaitsWhileTheStoreIsLocked) {
    reads_->locked = true;
    scan(papers::code_of_version(plan_, std::nullopt));
    QTest::qWait(50);
    EXPECT_TRUE(check_->busy());
    EXPECT_TRUE(says("Looking through"));
    reads_->locked = false;
    finish();
    EXPECT_TRUE(says("not of this person"));
}

}  // namespace
}  // namespace evenfall::ui
