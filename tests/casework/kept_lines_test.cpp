// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <filesystem>

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <stdlib.h>

#include "casework/line_text.h"
#include "casework/store_log.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "rules/texts.h"

// The list as one session leaves it sealed for the next.

namespace evenfall {
namespace {

using std::chrono::days;

constexpr std::size_t kShippedBytes = 32u << 20;

class KeptLines : public testing::Test {
  protected:
    void SetUp() override {
        std::string made = (std::filesystem::temp_directory_path() / "evenfall-lines-XXXXXX").string();
        ASSERT_NE(mkdtemp(made.data()), nullptr);
        folder_ = made;
        const auto path = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";
        auto file = read_caseload(read_text_file(path, kShippedBytes).value(), "caseload.json").value();
        now_ = file.as_of;
        auto store = Store::create(folder_ / "s", "Hill", {"Ada", Role::prescriber, ""}, kWords, options());
        ASSERT_TRUE(store);
        ASSERT_TRUE(store->store.append(std::move(file.events)));
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    StoreOptions options() const {
        StoreOptions options;
        options.kdf = crypto::Kdf::least();
        const std::int64_t at = std::chrono::microseconds(now_.time_since_epoch()).count();
        options.now = [at] { return at; };
        return options;
    }
    /// Opens the store as a session does.
    Desk sit_down() {
        auto log = std::make_unique<StoreLog>(*Store::open(folder_ / "s", "Ada", kWords, options()));
        log_ = log.get();
        const Worker worker = worker_of(log->store());
        return Desk::open(std::move(log), formulary_, rules_, worker).value();
    }
    void look_at_everyone(Desk& desk) {
        Faults faults;
        for (int looks = 0; desk.look_on(now_, faults); ++looks) ASSERT_LT(looks, 10'000);
        EXPECT_TRUE(faults.empty());
    }
    /// One session that looks at everyone.
    void work_a_day() {
        Desk desk = sit_down();
        look_at_everyone(desk);
    }

    void meddle(const std::string& sql) {
        sqlite3* db = nullptr;
        ASSERT_EQ(sqlite3_open((folder_ / "s").c_str(), &db), SQLITE_OK);
        EXPECT_EQ(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(db);
        sqlite3_close(db);
    }

    static constexpr const char* kWords = "twelve quiet herons";
    std::filesystem::path folder_;
    LocalTime now_{};
    StoreLog* log_ = nullptr;
    Formulary formulary_ = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules_ = Rules::load(resources_folder() / "rules.json").value();
};

TEST_F(KeptLines, ALineComesBackFromItsTextAsItWas) {
    Desk desk = sit_down();
    Faults faults;
    const auto lines = desk.caseload(now_, faults);
    ASSERT_GT(lines.size(), 10u);
    for (const CaseloadLine& line : lines) {
        EXPECT_EQ(read_line(print_line(line)), line);
        EXPECT_EQ(print_line(line).find('\n'), std::string::npos);
    }
    EXPECT_EQ(read_line("{"), std::nullopt);
    EXPECT_EQ(read_line("[]"), std::nullopt);
}

TEST_F(KeptLines, NothingIsKnownBeforeAnybodyWasLookedAt) {
    Desk desk = sit_down();
    const auto known = desk.known_caseload(now_);
    EXPECT_TRUE(known.lines.empty());
    EXPECT_EQ(known.missing, desk.patients().size());
    look_at_everyone(desk);
    Faults faults;
    EXPECT_EQ(desk.known_caseload(now_).lines, desk.caseload(now_, faults));
}

/// What was foreseen for a day is what that day's own look finds.
TEST_F(KeptLines, TheNextSessionBeginsWithTheWholeListOfItsOwnDay) {
    work_a_day();
    const LocalTime first = now_;
    for (int ahead = 0; ahead <= 4; ++ahead) {
        now_ = first + days(ahead);
        Desk desk = sit_down();
        const auto known = desk.known_caseload(now_);
        EXPECT_EQ(known.missing, 0u) << ahead;
        Faults faults;
        EXPECT_EQ(known.lines, desk.caseload(now_, faults)) << ahead << " days later";
    }
    now_ = first + days(5);
    EXPECT_TRUE(sit_down().known_caseload(now_).lines.empty()) << "nothing was foreseen for so late a day";
}

TEST_F(KeptLines, WhoHasALaterEntryIsLookedAtFirst) {
    work_a_day();
    PatientId changed;
    {
        Desk desk = sit_down();
        changed = desk.patients()[3];
        ASSERT_TRUE(desk.carry_out(changed, {CheckIn{now_, {{"seizure", "yes"}}, ""}}, {}, now_));
    }  // the session ends before it could look at anybody
    Desk desk = sit_down();
    const auto known = desk.known_caseload(now_);
    EXPECT_EQ(known.missing, 1u);
    EXPECT_EQ(std::ranges::find(known.lines, changed, &CaseloadLine::patient), known.lines.end());
    Faults faults;
    EXPECT_TRUE(desk.look_on(now_, faults));
    EXPECT_EQ(desk.known_caseload(now_).missing, 0u) << "who is missing is looked at before the others";
    EXPECT_EQ(desk.known_caseload(now_).lines, desk.caseload(now_, faults));
}

TEST_F(KeptLines, ALaterEntryIsFoundThoughTheDeskDidNotWriteIt) {
    Desk desk = sit_down();
    look_at_everyone(desk);
    const PatientId changed = desk.patients()[5];
    ASSERT_TRUE(log_->store().append(
        {write_change("", changed, CheckIn{now_, {{"seizure", "yes"}}, ""}),
         write_change("", std::string(32, 'a'), Person{"0999", "Late Arrival", {}, {}, "en", {}})}));
    look_at_everyone(desk);
    const auto known = desk.known_caseload(now_);
    const auto line = std::ranges::find(known.lines, changed, &CaseloadLine::patient);
    ASSERT_NE(line, known.lines.end());
    EXPECT_EQ(line->reasons.front().flag.rule, "red-flag-seizure");
    EXPECT_EQ(std::ranges::count(known.lines, "Late Arrival", &CaseloadLine::name), 1);
}

TEST_F(KeptLines, AChangedRuleOrSettingDiscardsThemAll) {
    work_a_day();
    const Rules shipped = rules_;
    rules_ = rules_.with("call-days", "most", "7").value();
    EXPECT_TRUE(sit_down().known_caseload(now_).lines.empty());
    rules_ = shipped;
    EXPECT_EQ(sit_down().known_caseload(now_).missing, 0u);
    {
        Desk desk = sit_down();
        ASSERT_TRUE(desk.carry_out({}, {RuleChanged{"call-days", "most", "7", "local practice"}}, {}, now_));
    }
    EXPECT_TRUE(sit_down().known_caseload(now_).lines.empty());
    work_a_day();
    EXPECT_EQ(sit_down().known_caseload(now_).missing, 0u);
}

TEST_F(KeptLines, WhatIsDamagedIsDerivedAgain) {
    work_a_day();
    {
        Desk desk = sit_down();
        ASSERT_TRUE(log_->store().put_snapshot("line " + desk.patients()[0], "torn"));
        ASSERT_TRUE(log_->store().put_snapshot("line " + desk.patients()[1], ""));
    }
    EXPECT_EQ(sit_down().known_caseload(now_).missing, 2u);
    {
        Desk desk = sit_down();
        ASSERT_TRUE(log_->store().put_snapshot("lines", "torn"));
    }
    EXPECT_TRUE(sit_down().known_caseload(now_).lines.empty());
}

TEST_F(KeptLines, OneNewEntryLeavesTheOtherLinesAsTheyAre) {
    Desk desk = sit_down();
    look_at_everyone(desk);
    const PatientId patient = desk.patients()[2];
    ASSERT_TRUE(desk.record(patient));
    ASSERT_TRUE(
        desk.carry_out(patient, {NoteAdded{"seen"}, CheckIn{now_, {{"seizure", "yes"}}, ""}}, {}, now_));
    EXPECT_EQ(desk.known_caseload(now_).missing, 1u);
    EXPECT_EQ((*desk.line(patient, now_))->reasons.front().flag.rule, "red-flag-seizure");
    const auto events = log_->read(patient);
    EXPECT_EQ(**desk.record(patient), fold_patient(patient, *events))
        << "added to, and the same as folded anew";
    EXPECT_EQ(desk.known_caseload(now_).missing, 0u);
}

TEST_F(KeptLines, WhoseRecordCannotBeReadIsCountedAllDay) {
    std::size_t people = 0;
    work_a_day();  // lines were foreseen for everyone: they do not hold for whom nothing is known of
    std::int64_t damaged = 0;
    {
        Desk desk = sit_down();
        people = desk.patients().size();
        damaged = log_->read(desk.patients()[3])->at(2).stamp.sequence;
    }
    meddle("UPDATE events SET sealed=x'00' WHERE sequence=" + std::to_string(damaged));
    Desk desk = sit_down();
    Faults faults;
    while (desk.look_on(now_, faults)) {
    }
    EXPECT_FALSE(faults.empty());
    const auto known = desk.known_caseload(now_);
    EXPECT_EQ(known.unreadable, 1u);
    EXPECT_EQ(known.missing, 0u);
    EXPECT_EQ(known.lines.size(), people - 1);
}

TEST_F(KeptLines, SomebodyNoneOfWhoseRowsCanBeReadIsCountedToo) {
    std::size_t people = 0;
    std::string damaged;
    work_a_day();
    {
        Desk desk = sit_down();
        people = desk.patients().size();
        for (const StoredEvent& each : *log_->read(desk.patients()[3]))
            damaged += (damaged.empty() ? "" : ",") + std::to_string(each.stamp.sequence);
    }
    meddle("UPDATE events SET sealed=x'00' WHERE sequence IN (" + damaged + ")");
    Desk desk = sit_down();
    EXPECT_EQ(desk.patients().size(), people);
    Faults faults;
    while (desk.look_on(now_, faults)) {
    }
    EXPECT_FALSE(faults.empty());
    const auto known = desk.known_caseload(now_);
    EXPECT_EQ(known.unreadable, 1u);
    EXPECT_EQ(known.missing, 0u);
    EXPECT_EQ(known.lines.size(), people - 1);
}

TEST_F(KeptLines, RecordsOfManyPeopleAreLetGo) {
    Desk desk = sit_down();
    for (const PatientId& patient : desk.patients()) {
        const auto record = desk.record(patient);
        ASSERT_TRUE(record);
        EXPECT_EQ((*record)->id, patient);
    }
    EXPECT_EQ((*desk.record(desk.patients().front()))->id, desk.patients().front());
}

}  // namespace
}  // namespace evenfall
