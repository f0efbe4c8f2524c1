// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/sequence.h"

#include <gtest/gtest.h>

#include "planning/planning_fixture.h"
#include "planning/supply.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

TaperInput two_agents() {
    TaperInput input;
    input.start.doses = {dose_at("08:00", "lorazepam", "1"), dose_at("22:00", "temazepam", "15")};
    input.products = {solid("lorazepam", "0.5", Cuts::halves),
                      solid("temazepam", "7.5", Cuts::whole, Form::capsule)};
    return input;
}

PlanRequest of(const std::string& drug) {
    PlanRequest request;
    request.drug = drug;
    request.start = day_at(2027, 1, 4);
    return request;
}

TEST(Sequence, TheSecondAgentWaitsForTheFirstAndStaysAsItIsUntilThen) {
    const auto plans =
        plan_sequence({of("lorazepam"), of("temazepam")}, two_agents(), formulary(), shipped_rules()).value();
    ASSERT_EQ(plans.size(), 2U);
    for (const Step& step : plans[0].steps) {
        if (step.daily.is_zero()) continue;
        EXPECT_EQ(step.doses.back().drug, "temazepam");
        EXPECT_EQ(step.doses.back().amount, mg("15"));
    }
    // 14 days, longer than five half-lives of lorazepam (60 h).
    EXPECT_EQ(plans[1].steps.front().starts, plans[0].steps.back().starts + std::chrono::days(14));
    EXPECT_TRUE(has_flag(plans[1].flags, "sequence-wait"));
    ASSERT_EQ(plans[1].start.doses.size(), 1U);
    EXPECT_EQ(plans[1].start.doses[0].drug, "temazepam");
}

TEST(Sequence, TheOrderIsTheClinicians) {
    const auto plans =
        plan_sequence({of("temazepam"), of("lorazepam")}, two_agents(), formulary(), shipped_rules()).value();
    EXPECT_EQ(plans[0].request.drug, "temazepam");
    PlanRequest part = of("lorazepam");
    part.end_amount = mg("0.5");
    const auto partial =
        plan_sequence({part, of("temazepam")}, two_agents(), formulary(), shipped_rules()).value();
    ASSERT_EQ(partial[1].start.doses.size(), 2U);
    EXPECT_EQ(partial[1].start.doses[0].amount, mg("0.5"));
}

TEST(Sequence, OddOrdersAreRefusedAtTheirPlace) {
    EXPECT_TRUE(has_fault(plan_sequence({}, two_agents(), formulary(), shipped_rules()), "sequence-empty"));
    const auto twice =
        plan_sequence({of("lorazepam"), of("lorazepam")}, two_agents(), formulary(), shipped_rules());
    ASSERT_TRUE(has_fault(twice, "sequence-drug-twice"));
    EXPECT_EQ(twice.faults().front().place, "plan.then[0].drug");
    PlanRequest odd = of("temazepam");
    odd.days_per_step = 0;
    const auto later = plan_sequence({of("lorazepam"), odd}, two_agents(), formulary(), shipped_rules());
    ASSERT_TRUE(has_fault(later, "plan-days-range"));
    EXPECT_EQ(later.faults().front().place, "plan.then[0].days_per_step");
}

TEST(Sequence, BothAgentsAreSuppliedWhileTheyAreTaken) {
    const auto plans =
        plan_sequence({of("lorazepam"), of("temazepam")}, two_agents(), formulary(), shipped_rules()).value();
    SupplyInput input;
    input.from = day_at(2027, 1, 4);
    input.to = plans[1].steps.back().starts;
    input.doses = doses_of(plans, input.from, PieceWeights::from(shipped_rules()));
    const Supply supply = supply_for(input).value();
    int lorazepam = 0, temazepam = 0;
    for (const Fill& fill : supply.fills)
        for (const SupplyItem& item : fill.items)
            (item.product.drug == "lorazepam" ? lorazepam : temazepam) += item.units;
    EXPECT_GT(lorazepam, 0);
    EXPECT_GE(temazepam, 2 * static_cast<int>((plans[1].steps.front().starts - input.from).count()));
}

}  // namespace
}  // namespace evenfall
