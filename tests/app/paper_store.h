// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "app/commands.h"
#include "app/paper_people.h"
#include "store/store.h"

// A sealed store with people who have signed plans, and the commands that make their papers.

namespace evenfall::app {

inline const Product kTablet{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}};
inline constexpr const char* kPassphrase = "four quiet lakes and a heron";

/// A plan from 10 mg of diazepam to 8 mg, of one signed step that takes two weeks.
inline Plan plan_of(Day start) {
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

/// What a command left behind.
struct Told {
    Exit exit = Exit::done;
    std::string out;  ///< on standard output
    std::string err;  ///< on standard error
};

class PaperStore : public testing::Test {
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
    static PatientId patient_of(char digit) { return PatientId(32, digit); }
    static Day today() { return day_of(machine_time()); }

    /// The store, opened again where a command has had it since.
    Store& store() {
        if (!store_) {
            auto opened = Store::open(path("clinic.store").toStdString(), "Mara Keel", kPassphrase, {});
            EXPECT_TRUE(opened.ok());
            store_ = std::move(*opened);
        }
        return *store_;
    }
    EventId write(Event event) {
        auto written = store().append({std::move(event)});
        EXPECT_TRUE(written.ok());
        return written->front().event.id;
    }

    /// A person with a signed plan; the id of its commitment.
    EventId add(const std::string& reference, char digit, const Plan& plan = plan_of(today())) {
        Person person;
        person.reference = reference;
        person.name = "Ana Example";
        write(write_change({}, patient_of(digit), person));
        return write(write_change({}, patient_of(digit), PlanCommitted{plan, {}, {}}));
    }
    PatientRecord record_of(char digit) {
        const auto events = store().read(patient_of(digit));
        EXPECT_TRUE(events.ok());
        return fold_patient(patient_of(digit), *events);
    }
    /// Makes what is kept of somebody unreadable.
    void damage(char digit) {
        std::string rows;
        for (const StoredEvent& each : *store().read(patient_of(digit)))
            rows += (rows.empty() ? "" : ",") + std::to_string(each.stamp.sequence);
        store_.reset();
        sqlite3* db = nullptr;
        ASSERT_EQ(sqlite3_open(path("clinic.store").toStdString().c_str(), &db), SQLITE_OK);
        const std::string damage = "UPDATE events SET sealed=x'00' WHERE sequence IN (" + rows + ")";
        EXPECT_EQ(sqlite3_exec(db, damage.c_str(), nullptr, nullptr, nullptr), SQLITE_OK);
        sqlite3_close(db);
    }

    QStringList access() const {
        return {QStringLiteral("--user"), user_, QStringLiteral("--passphrase-file"), path("passphrase")};
    }
    /// What a command says of the store, which one copy of the program holds at a time.
    Told say(Exit (*command)(const QStringList&), const QStringList& words) {
        store_.reset();
        testing::internal::CaptureStdout();
        testing::internal::CaptureStderr();
        Told told;
        told.exit = command(words + access());
        told.out = testing::internal::GetCapturedStdout();
        told.err = testing::internal::GetCapturedStderr();
        return told;
    }
    QString named(const QString& who) const { return path("clinic.store") + QStringLiteral("#") + who; }
    /// Makes schedules.
    Told papers(const QString& who, const QStringList& more = {}) {
        return say(&papers_command, QStringList{named(who), QStringLiteral("--out"), path("papers"),
                                                QStringLiteral("--paper"), QStringLiteral("schedule")} +
                                        more);
    }
    QStringList made() const { return QDir(path("papers")).entryList({QStringLiteral("*.pdf")}); }
    static long lines_of(const std::string& text) { return std::count(text.begin(), text.end(), '\n'); }

    QTemporaryDir folder_;
    QString user_ = QStringLiteral("Mara Keel");  ///< who gives the commands
    std::optional<Store> store_;
};

}  // namespace evenfall::app
