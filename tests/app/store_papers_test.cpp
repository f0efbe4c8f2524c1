// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "app/paper_store.h"
#include "papers/code.h"
#include "papers/mark.h"
#include "papers/source.h"

// The papers of people who lie in a sealed store, and the paper in hand that is held against it.

namespace evenfall::app {
namespace {

class StorePapers : public PaperStore {
  protected:
    std::pair<Exit, std::string> check(const std::string& code) {
        const Told told = say(&store_command, {QStringLiteral("check"), path("clinic.store"),
                                               QStringLiteral("--paper"), QString::fromStdString(code)});
        return {told.exit, told.out};
    }
};

TEST_F(StorePapers, OfAPatternAreWrittenByReference) {
    add("HL-1", 'a');
    add("HL-2", 'b');
    add("other", 'c');
    const Told told = papers(QStringLiteral("HL-*"));
    EXPECT_EQ(told.exit, Exit::done);
    EXPECT_NE(told.out.find("\"papers\": 2"), std::string::npos);
    EXPECT_NE(told.err.find("2 of 2: HL-2, 1 papers"), std::string::npos) << told.err;
    EXPECT_EQ(made(),
              (QStringList{QStringLiteral("HL-1-schedule.pdf"), QStringLiteral("HL-2-schedule.pdf")}));
}

TEST_F(StorePapers, OfAPatternThatNobodyBearsAreNoSuccess) {
    add("HL-1", 'a');
    const Told told = papers(QStringLiteral("KL-*"));
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_NE(told.err.find("KL-*"), std::string::npos) << told.err;
}

TEST_F(StorePapers, OfAReferenceThatTwoBearAreRefusedBeforeAnythingIsWritten) {
    add("HL-1", 'a');
    ASSERT_EQ(papers(QStringLiteral("HL-1")).exit, Exit::done);
    const QString file = path("papers/schedule.pdf");
    ASSERT_TRUE(QFile::remove(file));
    add("HL-1", 'b');
    const Told told = papers(QStringLiteral("HL-1"), {QStringLiteral("--replace")});
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_TRUE(made().isEmpty());
    EXPECT_EQ(lines_of(told.err), 1) << told.err;
    for (const std::string& says :
         {std::string("HL-1"), patient_of('a'), patient_of('b'), std::string("reference")})
        EXPECT_NE(told.err.find(says), std::string::npos) << says << " in " << told.err;
    EXPECT_TRUE(record_of('b').papers.empty());
}

TEST_F(StorePapers, OfOneOfTwoWithOneReferenceAreMadeByTheRecord) {
    add("HL-1", 'a');
    const EventId theirs = add("HL-1", 'b');
    EXPECT_EQ(papers(QString::fromStdString(patient_of('b'))).exit, Exit::done);
    EXPECT_EQ(made(), QStringList{QStringLiteral("schedule.pdf")});
    EXPECT_TRUE(record_of('a').papers.empty());
    ASSERT_EQ(record_of('b').papers.size(), 1U);
    EXPECT_EQ(record_of('b').papers.front().value.plan, theirs);
}

TEST_F(StorePapers, OfAPatternLeaveOutOnlyThoseWithOneReference) {
    add("HL-1", 'a');
    add("HL-1", 'b');
    add("HL-2", 'c');
    const Told told = papers(QStringLiteral("HL-*"));
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
    EXPECT_NE(told.err.find(patient_of('b')), std::string::npos) << told.err;
    const auto summary = nlohmann::json::parse(told.out);
    ASSERT_EQ(summary["not_made"].size(), 2U) << told.out;
    for (const auto& each : summary["not_made"]) {
        EXPECT_EQ(each["of"], "HL-1");
        EXPECT_EQ(each["faults"][0]["id"], "app-reference-doubled");
    }
    EXPECT_EQ(summary["people_asked"], 3);
    EXPECT_EQ(told.err.find("is the reference of"), told.err.rfind("is the reference of")) << told.err;
    EXPECT_NE(told.err.find("3 of 3: HL-2, 1 papers"), std::string::npos) << told.err;
}

TEST_F(StorePapers, OfAPatternCountWhoCannotBeReadAndSayWhy) {
    add("HL-1", 'a');
    add("HL-2", 'b');
    damage('a');
    const Told told = papers(QStringLiteral("HL-*"));
    const auto summary = nlohmann::json::parse(told.out);
    EXPECT_EQ(summary["people_asked"], 2);
    EXPECT_EQ(summary["people"], 1);
    ASSERT_EQ(summary["not_made"].size(), 1U);
    EXPECT_FALSE(summary["not_made"][0]["faults"].empty());
    EXPECT_NE(told.err.find("2 of 2: HL-2, 1 papers"), std::string::npos) << told.err;
}

TEST_F(StorePapers, WithoutANumberAreSentToTheClinicsSettingsOnce) {
    add("HL-1", 'a');
    ASSERT_EQ(papers(QStringLiteral("HL-1")).exit, Exit::done);
    write(write_change({}, {}, Clinic{"Harbour Clinic", {}, "555-0141", "112", {}, 28, 5}));
    const Told told = papers(QStringLiteral("HL-1"), {QStringLiteral("--replace")});
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_EQ(lines_of(told.err), 2) << told.err;
    EXPECT_NE(told.err.find("clinic's settings"), std::string::npos) << told.err;
    EXPECT_NE(told.err.find("schedule.pdf: This file is older"), std::string::npos) << told.err;
}

TEST_F(StorePapers, AndFiguresAreOfNobodyWhereTwoBearTheReference) {
    add("HL-1", 'a');
    add("HL-1", 'b');
    const Told told = say(&compute_command, {QStringLiteral("equivalence"), named(QStringLiteral("HL-1"))});
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_TRUE(told.out.empty()) << told.out;
    EXPECT_NE(told.err.find(patient_of('b')), std::string::npos) << told.err;
}

TEST_F(StorePapers, AreNotedAsGoneOutAndThenNoLongerUnprinted) {
    const EventId plan = add("HL-1", 'a');
    ASSERT_EQ(papers(QStringLiteral("*"), {QStringLiteral("--unprinted")}).exit, Exit::done);
    const auto noted = record_of('a').papers;
    ASSERT_EQ(noted.size(), 1U);
    const PaperIssued expected{"schedule", papers::code_of_version(plan, std::nullopt), plan, today(),
                               today() + std::chrono::days(13)};
    EXPECT_EQ(noted.front().value, expected);
    EXPECT_EQ(noted.front().stamp.author, store().user().grant.id);

    const Told again = papers(QStringLiteral("*"), {QStringLiteral("--unprinted")});
    EXPECT_EQ(again.exit, Exit::done) << again.err;
    EXPECT_NE(again.out.find("\"papers\": 0"), std::string::npos) << again.out;
    EXPECT_NE(again.err.find("no schedule shows"), std::string::npos) << again.err;
    EXPECT_EQ(record_of('a').papers.size(), 1U);
}

TEST_F(StorePapers, ThatANurseMakesAreNotedUnderTheirName) {
    add("HL-1", 'a');
    const auto nurse = store().grant({"Oda Wren", Role::nurse, {}}, kPassphrase);
    ASSERT_TRUE(nurse.ok());
    user_ = QStringLiteral("Oda Wren");
    const Told told = papers(QStringLiteral("HL-1"));
    EXPECT_EQ(told.exit, Exit::done) << told.err;
    ASSERT_EQ(record_of('a').papers.size(), 1U);
    EXPECT_EQ(record_of('a').papers.front().stamp.author, nurse->grant.id);
}

TEST_F(StorePapers, SayWhichSheetTheyReplace) {
    add("HL-1", 'a');
    ASSERT_EQ(papers(QStringLiteral("HL-1")).exit, Exit::done);
    ASSERT_EQ(record_of('a').papers.size(), 1U);
    const std::string first = record_of('a').papers.front().value.code;
    write(write_change({}, patient_of('a'), PlanCommitted{plan_of(today()), {}, {}}));
    std::string replaced;
    const auto resources = load_resources();
    ASSERT_TRUE(resources);
    store_.reset();
    visit_people(
        {named(QStringLiteral("HL-1")).toStdString(), {path("passphrase").toStdString(), "Mara Keel"}, {}},
        *resources,
        {[&](const PaperPerson& person, int, int) { replaced = person.source.replaces_code; }, {}});
    EXPECT_EQ(replaced, first);
}

TEST_F(StorePapers, AreNotedOnlyWhereAScheduleWasWritten) {
    add("HL-1", 'a');
    const QStringList caution{named(QStringLiteral("HL-1")), QStringLiteral("--out"), path("papers"),
                              QStringLiteral("--paper"), QStringLiteral("caution")};
    EXPECT_EQ(say(&papers_command, caution).exit, Exit::done);
    EXPECT_TRUE(record_of('a').papers.empty());
    QFile there(path("papers/schedule.pdf"));
    ASSERT_TRUE(there.open(QIODevice::WriteOnly));
    there.close();
    EXPECT_EQ(papers(QStringLiteral("HL-1")).exit, Exit::input_wrong);
    EXPECT_TRUE(record_of('a').papers.empty());
}

TEST_F(StorePapers, OfOnePersonAreASuccessBesideSomebodyWhoCannotBeRead) {
    add("HL-1", 'a');
    add("HL-2", 'b');
    damage('a');
    const Told told = papers(QStringLiteral("HL-2"));
    EXPECT_EQ(told.exit, Exit::done) << told.err;
    EXPECT_EQ(made(), QStringList{QStringLiteral("schedule.pdf")});
    EXPECT_EQ(lines_of(told.err), 1) << told.err;
}

TEST_F(StorePapers, OfWhomMayBeTheOneThatCannotBeReadAreARefusalOfTheStore) {
    add("HL-1", 'a');
    add("HL-2", 'b');
    damage('a');
    const Told lost = papers(QStringLiteral("HL-1"));
    EXPECT_EQ(lost.exit, Exit::store_refuses) << lost.err;
    const Told all = papers(QStringLiteral("*"));
    EXPECT_EQ(all.exit, Exit::store_refuses) << all.err;
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
}

TEST_F(StorePapers, BearTheCodeByWhichTheStoreKnowsThem) {
    const EventId plan = add("HL-1", 'a');
    const std::string code = papers::code_of_version(plan, std::nullopt);
    const auto [exit, told] = check(code);
    EXPECT_EQ(exit, Exit::done);
    EXPECT_NE(told.find("HL-1: This is the current "), std::string::npos) << told;
    EXPECT_EQ(check(papers::write_mark({code, plan})).first, Exit::done);
}

TEST_F(StorePapers, AreReplacedOnceAnotherPlanIsSigned) {
    const std::string code = papers::code_of_version(add("HL-1", 'a'), std::nullopt);
    const std::string newer = papers::code_of_version(
        write(write_change({}, patient_of('a'), PlanCommitted{plan_of(today()), {}, {}})), std::nullopt);
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
    damage('a');
    EXPECT_EQ(check(whole).first, Exit::done);
    const auto [exit, told] = check(lost);
    EXPECT_EQ(exit, Exit::store_refuses);
    EXPECT_EQ(told.find("No version of anyone"), std::string::npos) << "it may be theirs";
}

}  // namespace
}  // namespace evenfall::app
