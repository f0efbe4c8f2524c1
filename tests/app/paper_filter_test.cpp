// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/paper_store.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"

// Which people of a store are asked for by the agent that they take.

namespace evenfall::app {
namespace {

class PaperFilter : public PaperStore {
  protected:
    Told taking(const QString& agent, const QStringList& more = {}) {
        QDir(path("papers")).removeRecursively();
        return papers(QStringLiteral("*"), QStringList{QStringLiteral("--agent"), agent} + more);
    }
};

/// The same plan for somebody who takes temazepam at night beside it, as before.
Plan beside_temazepam(Plan plan) {
    plan.start.doses.push_back({{22 * 60}, "temazepam", Dose::milligrams(15), {}, {}});
    for (Step& step : plan.steps) step.doses.push_back({{22 * 60}, "temazepam", Dose::milligrams(15), {}});
    return plan;
}

/// The same plan for somebody who takes lorazepam and goes over to diazepam with the first step.
Plan across_from_lorazepam(Plan plan) {
    plan.start.doses = {{{8 * 60}, "lorazepam", Dose::milligrams(1), {}, {}}};
    return plan;
}

/// A plan whose last signed step takes nothing, and begins today.
Plan off_today(Day today) {
    Plan plan = plan_of(today - std::chrono::days(14));
    Step off;
    off.number = 2;
    off.starts = today;
    off.status = StepStatus::committed;
    off.percent_of_last = Share::cut(Dose::milligrams(8), {});
    plan.steps.push_back(off);
    return plan;
}

TEST_F(PaperFilter, FindsWhoTakesTheAgentBesideThePlans) {
    add("HL-1", 'a');
    add("HL-2", 'b', beside_temazepam(plan_of(today())));
    EXPECT_EQ(taking(QStringLiteral("temazepam")).exit, Exit::done);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
    EXPECT_EQ(taking(QStringLiteral("diazepam")).exit, Exit::done);
    EXPECT_EQ(made().size(), 2);
}

TEST_F(PaperFilter, FindsWhoHasCrossedOverAndNotWhoIsYetTo) {
    add("HL-1", 'a', across_from_lorazepam(plan_of(today())));
    add("HL-2", 'b', across_from_lorazepam(plan_of(today() + std::chrono::days(1))));
    EXPECT_EQ(taking(QStringLiteral("diazepam")).exit, Exit::done);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-1-schedule.pdf")});
    EXPECT_EQ(taking(QStringLiteral("lorazepam")).exit, Exit::done);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
}

TEST_F(PaperFilter, LeavesOutWhoHasComeOffAndSaysThatNobodyIsLeft) {
    add("HL-1", 'a', off_today(today()));
    const Told told = taking(QStringLiteral("diazepam"));
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_TRUE(made().isEmpty());
    EXPECT_EQ(lines_of(told.err), 1) << told.err;
    EXPECT_NE(told.err.find("diazepam"), std::string::npos) << told.err;
    EXPECT_NE(told.out.find("\"people\": 0"), std::string::npos) << told.out;
}

TEST_F(PaperFilter, ReadsAnAgentInAnyCaseAndRefusesAnUnknownOne) {
    add("HL-1", 'a');
    EXPECT_EQ(taking(QStringLiteral(" DiazePAM ")).exit, Exit::done);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-1-schedule.pdf")});
    const Told told = taking(QStringLiteral("diazepan"));
    EXPECT_EQ(told.exit, Exit::command_wrong);
    EXPECT_TRUE(told.out.empty()) << told.out;
    for (const char* agent : {"alprazolam", "diazepam", "temazepam"})
        EXPECT_NE(told.err.find(agent), std::string::npos) << told.err;
    EXPECT_EQ(taking(QString()).exit, Exit::command_wrong);
}

TEST_F(PaperFilter, AlsoHoldsForOnePersonWhoIsNamed) {
    add("HL-1", 'a');
    const Told told = papers(QStringLiteral("HL-1"), {QStringLiteral("--agent"), QStringLiteral("zolpidem")});
    EXPECT_EQ(told.exit, Exit::input_wrong);
    EXPECT_EQ(lines_of(told.err), 1) << told.err;
    EXPECT_TRUE(made().isEmpty());
}

TEST_F(PaperFilter, PassesOverAReferenceThatTwoBearWhereNeitherIsAskedFor) {
    add("HL-1", 'a');
    add("HL-1", 'b');
    add("HL-2", 'c', beside_temazepam(plan_of(today())));
    const Told told = taking(QStringLiteral("temazepam"));
    EXPECT_EQ(told.exit, Exit::done) << told.err;
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
    EXPECT_EQ(taking(QStringLiteral("diazepam")).exit, Exit::input_wrong);
    EXPECT_EQ(made(), QStringList{QStringLiteral("HL-2-schedule.pdf")});
}

TEST_F(PaperFilter, FindsWhoTakesASecondAgentInTheInventedCaseload) {
    const auto text =
        read_text_file(resources_folder().parent_path() / "sample_data" / "caseload.json", 32U << 20);
    ASSERT_TRUE(text.ok());
    auto caseload = read_caseload(*text, "caseload.json");
    ASSERT_TRUE(caseload.ok());
    ASSERT_TRUE(store().append(told_as_of(std::move(*caseload), machine_time()).events).ok());
    const Told told = taking(QStringLiteral("temazepam"));
    EXPECT_EQ(told.exit, Exit::done) << told.err;
    EXPECT_TRUE(made().contains(QStringLiteral("HL-1022-schedule.pdf"))) << told.err;
}

}  // namespace
}  // namespace evenfall::app
