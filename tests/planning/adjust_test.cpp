// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/adjust.h"

#include <gtest/gtest.h>

#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

using std::chrono::days;

struct Course {
    TaperInput input = two_dose_times();
    Plan plan = plan_taper(eight_percent(), input, shipped_rules()).value();

    /// The same request again after the first two steps.
    Replan change(Day resume) const { return {2, resume, plan.request, input}; }
    Plan planned(const Replan& change) const { return replan(plan, change, shipped_rules()).value(); }
};

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

void expect_kept(const Plan& before, const Plan& after, std::size_t kept) {
    for (std::size_t i = 0; i < kept; ++i) {
        EXPECT_EQ(after.steps[i].doses, before.steps[i].doses);
        EXPECT_EQ(after.steps[i].starts, before.steps[i].starts);
        EXPECT_EQ(after.steps[i].flags, before.steps[i].flags);
    }
}

TEST(Adjust, AHoldALateStepAndAnEarlyStepMoveTheOutlookOnly) {
    const Course course;
    for (const int by : {-4, 0, 21}) {
        const Day resume = course.plan.steps[2].starts + days(by);
        const Plan after = course.planned(course.change(resume));
        expect_kept(course.plan, after, 2);
        EXPECT_EQ(after.steps[2].starts, resume);
        EXPECT_EQ(after.steps[2].daily, course.plan.steps[2].daily);
    }
}

TEST(Adjust, SlowingDownMakesLongerStaysAndNoLargerCuts) {
    const Course course;
    Replan change = course.change(course.plan.steps[2].starts);
    change.request.days_per_step = 28;
    change.request.target = Share::percent(5);
    const Plan slow = course.planned(change);
    expect_kept(course.plan, slow, 2);
    EXPECT_GE(*slow.steps[2].days, 28);
    EXPECT_LE(slow.steps[2].percent_of_last, course.plan.steps[2].percent_of_last);
    EXPECT_GT(slow.steps.back().starts, course.plan.steps.back().starts);
}

TEST(Adjust, OnlyTheNextCutIsSmaller) {
    Course course;
    course.input.products.push_back(solution("clonazepam", "0.1", "0.1"));
    course.plan = plan_taper(eight_percent(), course.input, shipped_rules()).value();
    const Replan change = course.change(course.plan.steps[2].starts);
    const Plan smaller =
        with_smaller_next_cut(course.plan, change, Share::percent(3), shipped_rules()).value();
    expect_kept(course.plan, smaller, 2);
    EXPECT_LT(smaller.steps[2].percent_of_last, Share::percent(5));
    EXPECT_GT(smaller.steps[3].percent_of_last, Share::percent(5));
    EXPECT_EQ(smaller.steps[2].status, StepStatus::committed);
    EXPECT_EQ(smaller.request.target, course.plan.request.target);
    EXPECT_TRUE(has_fault(with_smaller_next_cut(course.plan, change, Share::percent(8), shipped_rules()),
                          "adjust-not-smaller"));
}

TEST(Adjust, ALowerDoseIsAnEndAndOtherProductsTakeOver) {
    const Course course;
    Replan lower = course.change(course.plan.steps[2].starts);
    lower.request.end_amount = mg("1.25");
    const Plan partial = course.planned(lower);
    EXPECT_EQ(partial.steps.back().daily, mg("1.25"));
    expect_kept(course.plan, partial, 2);
    const std::vector<Product> liquid{solution("clonazepam", "0.1", "0.1"),
                                      solid("clonazepam", "0.5", Cuts::quarters)};
    Replan poured = course.change(course.plan.steps[2].starts);
    poured.input.products = liquid;
    const Plan other = course.planned(poured);
    expect_kept(course.plan, other, 2);
    EXPECT_EQ(other.products, liquid);
}

TEST(Adjust, AfterMissedDosesThePrescriberIsAskedFirst) {
    // Alprazolam: half-life 11.2 h; five are 56 h.
    const auto two = after_missed("alprazolam", 2, formulary(), shipped_rules());
    EXPECT_EQ(two.front().rule, "missed-doses");
    EXPECT_FALSE(has_flag(two, "missed-tolerance"));
    EXPECT_TRUE(has_flag(two, "missed-short"));
    EXPECT_TRUE(has_flag(after_missed("alprazolam", 3, formulary(), shipped_rules()), "missed-tolerance"));
    const auto slow =
        after_missed("diazepam", 7, formulary(), shipped_rules());  // five times 62 h are 13 days
    EXPECT_FALSE(has_flag(slow, "missed-tolerance"));
    EXPECT_FALSE(has_flag(slow, "missed-short"));
    EXPECT_TRUE(has_flag(after_missed("diazepam", 13, formulary(), shipped_rules()), "missed-tolerance"));
}

TEST(Adjust, AfterAStopInHospitalThePlanBeginsFromWhatIsTakenNow) {
    const Course course;
    const Regimen now{{dose_at("08:00", "clonazepam", "0.5"), dose_at("21:00", "clonazepam", "1")}};
    const Day since = day_at(2027, 3, 1);
    const Plan plan = plan_from_now(course.plan, now, since, course.input, shipped_rules()).value();
    EXPECT_EQ(plan.start, now);
    EXPECT_EQ(plan.steps.front().starts, since + days(14));
    EXPECT_LT(plan.steps.front().daily, mg("1.5"));
    EXPECT_TRUE(has_fault(plan_from_now(course.plan, {}, since, course.input, shipped_rules()),
                          "adjust-nothing-taken"));
}

}  // namespace
}  // namespace evenfall
