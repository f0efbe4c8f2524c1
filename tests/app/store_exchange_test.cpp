// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include "app/basis.h"
#include "app/commands.h"
#include "record/changes.h"
#include "store/store.h"

// Two laptops of one clinic that meet by files through the command line.

namespace evenfall::app {
namespace {

constexpr const char* kPassphrase = "four quiet lakes and a heron";
const PatientId kAna(32, 'a');

class StoreExchange : public testing::Test {
  protected:
    void SetUp() override {
        QFile file(path("passphrase"));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(kPassphrase);
        file.close();
        make("a");
        write("a", kAna, person("HL-1"));
        ASSERT_EQ(run("export", {path("a"), path("stick")}), Exit::done);
        ASSERT_EQ(run("create", {path("b"), QStringLiteral("--join"), path("stick")}), Exit::done);
    }

    QString path(const char* name) const { return folder_.filePath(QString::fromLatin1(name)); }

    /// A store whose passphrase's key costs least, so that tests are quick; the cost travels with the user.
    void make(const char* name) {
        StoreOptions quick;
        quick.kdf = crypto::Kdf::least();
        ASSERT_TRUE(Store::create(path(name).toStdString(), "Harbour Clinic",
                                  {"Mara Keel", Role::prescriber, "L-1"}, kPassphrase, quick)
                        .ok());
    }

    /// Runs an act; what it printed is in `told`.
    Exit run(const char* act, QStringList more) {
        testing::internal::CaptureStdout();
        testing::internal::CaptureStderr();
        const Exit exit = store_command(QStringList{QString::fromLatin1(act)} + more +
                                        QStringList{QStringLiteral("--user"), QStringLiteral("Mara Keel"),
                                                    QStringLiteral("--passphrase-file"), path("passphrase")});
        told = testing::internal::GetCapturedStdout();
        complained = testing::internal::GetCapturedStderr();
        return exit;
    }
    Store open(const char* name) {
        auto store = Store::open(path(name).toStdString(), "Mara Keel", kPassphrase);
        if (!store) throw std::runtime_error(store.faults().front().id);
        return std::move(*store);
    }
    void write(const char* laptop, const PatientId& patient, const Change& change) {
        ASSERT_TRUE(open(laptop).append({write_change({}, patient, change)}).ok());
    }
    static Person person(const std::string& reference) {
        Person made;
        made.reference = reference;
        made.name = "Ana Example";
        return made;
    }
    static NoteAdded note(const std::string& text) {
        NoteAdded made;
        made.text = text;
        return made;
    }
    /// What each laptop has goes to the other, by a stick each way.
    void meet() {
        ASSERT_EQ(run("export", {path("a"), path("from-a"), QStringLiteral("--replace")}), Exit::done);
        ASSERT_EQ(run("export", {path("b"), path("from-b"), QStringLiteral("--replace")}), Exit::done);
        ASSERT_EQ(run("import", {path("b"), path("from-a")}), Exit::done) << complained;
        ASSERT_EQ(run("import", {path("a"), path("from-b")}), Exit::done) << complained;
    }

    QTemporaryDir folder_;
    std::string told;
    std::string complained;
};

TEST_F(StoreExchange, ConvergesAndAgainChangesNothing) {
    write("a", kAna, note("by the prescriber"));
    write("b", kAna, note("by the nurse"));
    write("b", PatientId(32, 'b'), person("HL-2"));
    meet();
    {
        Store a = open("a");
        Store b = open("b");
        EXPECT_EQ(*a.heads(), *b.heads());
        for (const PatientId& patient : {kAna, PatientId(32, 'b'), PatientId()})
            EXPECT_EQ(*a.read(patient), *b.read(patient));
        EXPECT_EQ(a.read(kAna)->size(), 3U);
    }
    ASSERT_EQ(run("import", {path("a"), path("from-b")}), Exit::done);
    EXPECT_NE(told.find("0 rows taken up"), std::string::npos) << told;
    EXPECT_EQ(run("check", {path("a"), path("b")}), Exit::done) << told << complained;
    EXPECT_EQ(run("check", {path("b"), path("a")}), Exit::done) << told << complained;
}

TEST_F(StoreExchange, NamesWhatAPersonMustSettleEachTimeUntilItIsSettled) {
    PlanCommitted plan;
    plan.plan.request.drug = "diazepam";
    write("a", kAna, plan);
    write("b", kAna, plan);
    CheckIn call;
    call.at = machine_time();
    write("a", kAna, call);
    write("b", kAna, call);
    write("a", PatientId(32, 'c'), person("HL-3"));
    write("b", PatientId(32, 'd'), person("HL-3"));
    meet();
    for (int again = 0; again < 2; ++again) {
        EXPECT_NE(told.find("HL-1: Two laptops each signed a plan"), std::string::npos) << told;
        EXPECT_NE(told.find("HL-1: A call of"), std::string::npos) << told;
        EXPECT_NE(told.find("HL-3: Two people bear this reference"), std::string::npos) << told;
        ASSERT_EQ(run("import", {path("a"), path("from-b")}), Exit::done);
    }
    EventId first;
    const auto events = open("a").read(kAna);
    for (const StoredEvent& each : *events)
        if (each.event.kind == "plan-committed") first = each.event.id;
    write("a", kAna, EntryAmended{first, "the other one holds"});
    ASSERT_EQ(run("import", {path("a"), path("from-b")}), Exit::done);
    EXPECT_EQ(told.find("signed a plan"), std::string::npos) << told;
}

TEST_F(StoreExchange, RefusesInWordsAndLosesNothing) {
    EXPECT_EQ(run("export", {path("a"), path("stick")}), Exit::store_refuses);
    EXPECT_NE(complained.find("already exists"), std::string::npos) << complained;
    EXPECT_EQ(run("export", {path("a")}), Exit::command_wrong);
    EXPECT_EQ(run("import", {path("a")}), Exit::command_wrong);
    EXPECT_EQ(run("check", {path("a"), QStringLiteral("--join"), path("stick")}), Exit::command_wrong);
    EXPECT_EQ(run("import", {path("a"), path("none")}), Exit::store_refuses);
    EXPECT_EQ(run("create", {path("b"), QStringLiteral("--join"), path("stick")}), Exit::store_refuses);
    make("other");
    ASSERT_EQ(run("export", {path("other"), path("strange")}), Exit::done);
    EXPECT_EQ(run("import", {path("a"), path("strange")}), Exit::store_refuses);
    EXPECT_NE(complained.find("another clinic"), std::string::npos) << complained;
    EXPECT_EQ(open("a").read(kAna)->size(), 1U);
}

TEST_F(StoreExchange, IntoAFolderGoesUnderANameOfItsOwn) {
    ASSERT_EQ(run("export", {path("a"), folder_.path()}), Exit::done);
    const QString file = QString::fromStdString(told).trimmed();
    EXPECT_TRUE(file.endsWith(QStringLiteral(".evenfall-exchange"))) << told;
    EXPECT_TRUE(QFile::exists(file));
    EXPECT_EQ(run("import", {path("b"), file}), Exit::done);
}

}  // namespace
}  // namespace evenfall::app
