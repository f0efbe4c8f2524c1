// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "planning/taper.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

TEST(Replan, WhenOnlyOffIsLeftOffStaysAndMovesToItsNewDay) {
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    PlanRequest request;
    request.drug = "clonazepam";
    request.start = day_at(2027, 1, 4);
    TaperInput input;
    input.start = {{{{480}, "clonazepam", Dose::micrograms(250), "", ""}}};
    input.products = {{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}}};
    const Plan plan = plan_taper(request, input, rules).value();
    Replan change;
    change.keep = static_cast<int>(plan.steps.size()) - 1;
    change.request = request;
    change.input = input;
    change.resume = plan.steps.back().starts + std::chrono::days(14);
    const auto again = replan(plan, change, rules);
    ASSERT_TRUE(again);
    ASSERT_EQ(again->steps.size(), plan.steps.size());
    EXPECT_TRUE(again->steps.back().daily.is_zero());
    EXPECT_EQ(again->steps.back().starts, change.resume);
    EXPECT_EQ(again->steps.back().status, StepStatus::outlook);
}

}  // namespace
}  // namespace evenfall
