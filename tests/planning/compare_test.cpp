// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/compare.h"

#include <cmath>

#include <gtest/gtest.h>

#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

Plan plan_at(std::int64_t target, int days) {
    PlanRequest request = eight_percent();
    request.target = Share::percent(target);
    request.days_per_step = days;
    return plan_taper(request, two_dose_times(), shipped_rules()).value();
}

TEST(Compare, TheFiguresAreThoseOfThePlanItself) {
    const Plan plan = plan_at(8, 14);
    const VariantFigures figures = figures_of(plan, formulary());
    EXPECT_EQ(figures.steps, static_cast<int>(plan.steps.size()));
    EXPECT_EQ(figures.ends, plan.steps.back().starts);
    EXPECT_EQ(figures.days, (plan.steps.back().starts - plan.steps.front().starts).count());
    EXPECT_TRUE(figures.ends_off);
    EXPECT_EQ(figures.last, plan.steps[plan.steps.size() - 2].daily);
    Share largest;
    for (const Step& step : plan.steps)
        if (!step.daily.is_zero()) largest = std::max(largest, step.percent_of_last);
    EXPECT_EQ(figures.largest_cut, largest);
    EXPECT_GT(figures.over_cap, 0);
}

TEST(Compare, ASlowerPlanHasAnEasierHardestWeek) {
    const std::vector<Plan> plans{plan_at(5, 28), plan_at(10, 7)};
    const auto figures = compare_plans(plans, formulary());
    ASSERT_TRUE(figures[0].hardest_week && figures[1].hardest_week);
    EXPECT_LT(figures[0].hardest_week->percent, figures[1].hardest_week->percent);
    EXPECT_GT(figures[0].days, figures[1].days);
    EXPECT_FALSE(figures_of(plans[0], Formulary{}).hardest_week);
}

// One compartment, one dose a day, one cut by half: the day averages fall as one exponential, and the weeks
// are sums of them.
TEST(Compare, TheHardestWeekAgreesWithTheClosedFormOfOneCompartment) {
    Formulary plain;
    Drug drug;
    drug.name = "clonazepam";
    drug.kinetics.absorption_half_life_h = 0.05;
    drug.kinetics.half_life_h = 24;
    plain.drugs["clonazepam"] = drug;
    Plan plan = plan_at(8, 14);
    plan.start.doses = {dose_at("00:00", "clonazepam", "2")};
    plan.steps.resize(1);
    plan.steps[0].days = 14;
    plan.steps[0].doses = {{clock_time("00:00"), "clonazepam", mg("1"), {}}};
    const double k = std::log(2);  // per day
    // The average of the n-th day (from 0) after the cut, of 2 before: 1 + exp(-k n) (1 - exp(-k)) / k.
    const auto day = [&](int n) { return 1 + std::exp(-k * n) * (1 - std::exp(-k)) / k; };
    double hardest = 0;
    int on = 0;
    for (int first = 0; first <= 7; ++first) {
        double before = 0, week = 0;
        for (int n = first; n < first + 7; ++n) {
            week += day(n);
            before += n - 7 < 0 ? 2 : day(n - 7);
        }
        if (100 * (before - week) / before > hardest) {
            hardest = 100 * (before - week) / before;
            on = first;
        }
    }
    const auto found = figures_of(plan, plain).hardest_week;
    ASSERT_TRUE(found);
    EXPECT_EQ(found->from, plan.steps[0].starts + std::chrono::days(on));
    EXPECT_NEAR(found->percent, hardest,
                1.5);  // the depot takes a few minutes that the closed form leaves out
}

TEST(Compare, TabletsToCutStrengthsAndCostAreCountedFromThePieces) {
    const Product tablet = solid("clonazepam", "0.5", Cuts::quarters);
    Plan plan;
    plan.request.drug = "clonazepam";
    Step step;
    step.days = 10;
    step.daily = mg("0.875");
    step.doses = {{clock_time("22:00"),
                   "clonazepam",
                   step.daily,
                   {{tablet, Cut::whole, 1, {}}, {tablet, Cut::half, 1, {}}, {tablet, Cut::quarter, 1, {}}}}};
    plan.steps = {step};
    const VariantFigures figures = figures_of(plan, formulary(), {{tablet, Price{250'000}}});
    EXPECT_EQ(figures.units_cut, 8);  // 10 halves and 10 quarters: 7.5 tablets
    EXPECT_EQ(figures.units, 18);     // 17.5
    EXPECT_EQ(figures.days_with_cutting, 10);
    EXPECT_EQ(figures.products, std::vector{tablet});
    EXPECT_EQ(print_cost(*figures.cost), "4.50");
    EXPECT_FALSE(figures_of(plan, formulary()).cost);
}

TEST(Compare, ALiquidIsCountedInWholeMillilitres) {
    const Product liquid = solution("clonazepam", "0.1", "0.1");
    Plan plan;
    plan.request.drug = "clonazepam";
    Step step;
    step.days = 7;
    step.daily = mg("0.23");
    step.doses = {{clock_time("22:00"),
                   "clonazepam",
                   step.daily,
                   {{liquid, Cut::ml, 1, Volume::nanolitres(2'300'000)}}}};
    plan.steps = {step};
    const VariantFigures figures = figures_of(plan, formulary(), {{liquid, Price{1'000'000}}});
    EXPECT_EQ(figures.liquid, Volume::nanolitres(16'100'000));
    EXPECT_EQ(print_cost(*figures.cost), "17.00");
    EXPECT_EQ(figures.units, 0);
}

TEST(Price, IsAPlainDecimal) {
    EXPECT_EQ(parse_price("0.12", "p")->millionths, 120'000);
    EXPECT_EQ(print_price(*parse_price("3.5", "p")), "3.5");
    for (const char* text : {"", "-1", "1,5", "$2", "1e3", "0.1234567", "100001"})
        EXPECT_TRUE(has_fault(parse_price(text, "p"), "price-not-a-number")) << text;
}

}  // namespace
}  // namespace evenfall
