// SPDX-License-Identifier: GPL-3.0-or-later
#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "app/commands.h"
#include "app/paper_people.h"
#include "papers/code.h"
#include "papers/mark.h"
#include "store/store.h"

// The papers of people who lie in a sealed store, and the paper in hand that is held against it.

namespace evenfall::app {
namespace {

const Product kTablet{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}};
constexpr const char* kPassphrase = "four quiet lakes and a heron";

Plan plan_of(Day start) {
    Plan plan;
    plan.request.drug = "diazepam";
    plan.request.start = start;
    plan.start.doses = {{{8 * 60}, "diazepam", Dose::milligrams(10), {}, {}}};
    plan.products = {kTablet};
    Step step;
    step.number = 1;
    step.starts = start;
    step.days = 14;
    step.status = StepStatus::committed;
    step.doses = {{{8 * 60}, "diazepam", Dose::milligrams(8), {{kTablet, Cut::whole, 4, {}}}}};
    step.daily = Dose::milligrams(8);
    step.percent_of_last = Share::cut(Dose::milligrams(10), step.daily);
    plan.steps = {step};
    return plan;
}

class StorePapers : public testing::Test {
  protected:
    void SetUp() override {
        auto created = Store::create(path("clinic.store").toStdString(), "Harbour Clinic",
                                     {"Mara Keel", Role::prescriber, "L-1"}, kPassphrase, {});
        ASSERT_TRUE(created.ok()) << created.faults().front().id;
        store_ = std::move(created->store);
        QFile file(path("passphrase"));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(kPassphrase);
        const Clinic clinic{"Harbour Clinic", "555-0140", "555-0141", "112", "555-0199", 28, 5};
        write(write_change({}, {}, clinic));
    }

    QString path(const char* name) const { return folder_.filePath(QString::fromLatin1(name)); }

    EventId write(Event event) {
        auto written = store_->append({std::move(event)});
        EXPECT_TRUE(written.ok());
        return written->front().event.id;
    }

    /// A person with a signed plan that runs now; the id of its commitment.
    EventId add(const std::string& reference, char digit) {
        const PatientId patient(32, digit);
        const Day today = day_of(machine_time());
        Person person;
        person.reference = reference;
        person.name = "Ana Example";
        write(write_change({}, patient, person));
        return write(write_change({}, patient, PlanCommitted{plan_of(today), {}, {}}));
    }

    QStringList access() const {
        return {QStringLiteral("--user"), QStringLiteral("Mara Keel"), QStringLiteral("--passphrase-file"),
                path("passphrase")};
    }
    Exit papers(const QString& pattern, const QStringList& more = {}) {
        store_.reset();  // one copy of the program holds a store at a time
        return papers_command(QStringList{path("clinic.store") + QStringLiteral("#") + pattern,
                                          QStringLiteral("--out"), path("papers"), QStringLiteral("--paper"),
                                          QStringLiteral("schedule")} +
                              more + access());
    }
    std::pair<Exit, std::string> check(const std::string& code) {
        store_.reset();
        testing::internal::CaptureStdout();
        const Exit exit = store_command(QStringList{QStringLiteral("check"), path("clinic.store"),
                                                    QStringLiteral("--paper"), QString::fromStdString(code)} +
                                        access());
        return {exit, testing::internal::GetCapturedStdout()};
    }

    QTemporaryDir folder_;
    std::optional<Store> store_;
};

TEST_F(StorePapers, OfAPatternAreWrittenByReference) {
    add("HL-1", 'a');
    add("HL-2", 'b');
    add("other", 'c');
    testing::internal::CaptureStdout();
    EXPECT_EQ(papers(QStringLiteral("HL-*")), Exit::done);
    EXPECT_NE(testing::internal::GetCapturedStdout().find("\"papers\": 2"), std::string::npos);
    EXPECT_EQ(QDir(path("papers")).entryList({QStringLiteral("*.pdf")}),
              (QStringList{QStringLiteral("HL-1-schedule.pdf"), QStringLiteral("HL-2-schedule.pdf")}));
}

TEST_F(StorePapers, OfAnAgentThatNobodyTakesAreNone) {
    add("HL-1", 'a');
    testing::internal::CaptureStdout();
    EXPECT_EQ(papers(QStringLiteral("*"), {QStringLiteral("--agent"), QStringLiteral("zolpidem")}),
              Exit::done);
    EXPECT_NE(testing::internal::GetCapturedStdout().find("\"people\": 0"), std::string::npos);
}

TEST_F(StorePapers, BearTheCodeByWhichTheStoreKnowsThem) {
    const EventId plan = add("HL-1", 'a');
    const std::string code = papers::code_of_version(plan, std::nullopt);
    const auto [exit, told] = check(code);
    EXPECT_EQ(exit, Exit::done);
    EXPECT_NE(told.find("HL-1: This is the current paper"), std::string::npos) << told;
    EXPECT_EQ(check(papers::write_mark({code, plan})).first, Exit::done);
}

TEST_F(StorePapers, AreReplacedOnceAnotherPlanIsSigned) {
    const std::string code = papers::code_of_version(add("HL-1", 'a'), std::nullopt);
    const std::string newer = papers::code_of_version(
        write(write_change({}, PatientId(32, 'a'), PlanCommitted{plan_of(day_of(machine_time())), {}, {}})),
        std::nullopt);
    const auto [exit, told] = check(code);
    EXPECT_EQ(exit, Exit::input_wrong);
    EXPECT_NE(told.find("Replaced on"), std::string::npos) << told;
    EXPECT_NE(told.find("Version " + newer), std::string::npos) << told;
}

TEST_F(StorePapers, OfACodeThatNobodyHasAreToldAsSuch) {
    add("HL-1", 'a');
    EXPECT_NE(check(papers::paper_code("nobody's")).second.find("No version of anyone"), std::string::npos);
    EXPECT_EQ(check("not a code").first, Exit::input_wrong);
}

TEST_F(StorePapers, AreKnownBesideSomebodyWhoseRecordCannotBeRead) {
    const std::string lost = papers::code_of_version(add("HL-1", 'a'), std::nullopt);
    const std::string whole = papers::code_of_version(add("HL-2", 'b'), std::nullopt);
    std::string rows;
    for (const StoredEvent& each : *store_->read(PatientId(32, 'a')))
        rows += (rows.empty() ? "" : ",") + std::to_string(each.stamp.sequence);
    store_.reset();
    sqlite3* db = nullptr;
    ASSERT_EQ(sqlite3_open(path("clinic.store").toStdString().c_str(), &db), SQLITE_OK);
    const std::string damage = "UPDATE events SET sealed=x'00' WHERE sequence IN (" + rows + ")";
    EXPECT_EQ(sqlite3_exec(db, damage.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
    sqlite3_close(db);

    EXPECT_EQ(check(whole).first, Exit::done);
    const auto [exit, told] = check(lost);
    EXPECT_EQ(exit, Exit::store_refuses);
    EXPECT_EQ(told.find("No version of anyone"), std::string::npos) << "it may be theirs";
}

}  // namespace
}  // namespace evenfall::app
