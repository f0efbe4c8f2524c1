// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/sensitivity.h"

#include "planning/cases.h"
#include "response/support.h"

namespace evenfall {
namespace {

using namespace testing_response;

SensitivityPoint point(int percent, double rise) {
    const Share cut = Share::percent(percent);
    return {-std::log(1 - cut.value()), rise, cut};
}

/// P(|T| < t) by Simpson's rule over the density.
double student_mass(double t, int degrees) {
    const double nu = degrees;
    const double scale =
        std::exp(std::lgamma((nu + 1) / 2) - std::lgamma(nu / 2)) / std::sqrt(nu * std::acos(-1.0));
    const auto density = [&](double x) { return scale * std::pow(1 + x * x / nu, -(nu + 1) / 2); };
    constexpr int kPanels = 2000;
    const double h = t / kPanels;
    double sum = density(0) + density(t);
    for (int i = 1; i < kPanels; ++i) sum += (i % 2 ? 4 : 2) * density(i * h);
    return 2 * sum * h / 3;
}

TEST(StudentT, HoldsNineTenthsBetweenItsLimits) {
    for (int degrees = 1; degrees <= 30; ++degrees)
        EXPECT_NEAR(student_mass(student_t_90(degrees), degrees), 0.9, 2e-4) << degrees;
    EXPECT_GE(student_mass(student_t_90(200), 200), 0.9);
}

// By hand: equal cuts of 10 % reduce to the mean (1) with standard error 1/√3 and t(2) = 2.920.
TEST(SensitivityLine, IsTheMeanWhereAllCutsAreAlike) {
    const auto learnt =
        learn_sensitivity({point(10, 0), point(10, 1), point(10, 2)}, Share::percent(10), rules());
    ASSERT_TRUE(learnt.estimate);
    EXPECT_NEAR(learnt.estimate->middle, 1, 1e-12);
    EXPECT_NEAR(learnt.estimate->high, 1 + 2.920 / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(learnt.estimate->low, 1 - 2.920 / std::sqrt(3.0), 1e-9);
}

TEST(SensitivityLine, SaysSoWithTooFewSteps) {
    const auto learnt = learn_sensitivity({point(10, 5), point(8, 4)}, Share::percent(10), rules());
    EXPECT_FALSE(learnt.estimate);
    EXPECT_FALSE(learnt.proposed_target);
    ASSERT_EQ(learnt.says.size(), 1u);
    EXPECT_EQ(learnt.says[0].rule, "sensitivity-few");
}

TEST(SensitivityTarget, IsNeverAboveTheCap) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> rise(-4, 4);
    std::uniform_int_distribution<int> cut(1, 40);
    for (int i = 0; i < 20'000; ++i) {
        std::vector<SensitivityPoint> points;
        for (int step = 0; step < 3 + i % 8; ++step) points.push_back(point(cut(random), rise(random)));
        const Share cap = Share::percent(1 + i % 20);
        const auto learnt = learn_sensitivity(points, cap, rules());
        ASSERT_TRUE(learnt.proposed_target);
        ASSERT_LE(*learnt.proposed_target, cap);
        ASSERT_GT(*learnt.proposed_target, Share{});
    }
}

TEST(SensitivityTarget, IsLargerAfterGoodStepsThanAfterPoorOnes) {
    const auto good =
        learn_sensitivity({point(5, 0), point(5, 0), point(5, 0), point(5, 0)}, Share::percent(10), rules());
    const auto poor =
        learn_sensitivity({point(5, 2), point(5, 2), point(5, 2), point(5, 2)}, Share::percent(10), rules());
    EXPECT_GT(*good.proposed_target, Share::percent(5));
    EXPECT_LE(*good.proposed_target, Share::of(75, 1000)) << "not far beyond what was tried";
    EXPECT_LT(*poor.proposed_target, Share::percent(5));
}

/// A course of six cuts whose true rise is `per_ten` points a cut of 10 %, in noisy whole-number ratings.
ResponseInput simulated(std::uint64_t seed, double per_ten, int days_per_step) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> noise(0, 1);
    std::uniform_int_distribution<std::int64_t> cut(50, 120);
    Course course(8000);
    course.input.diary.ratings.reserve(600);
    std::int64_t daily = 8000;
    double level = 0, rise = 0;
    const auto rate = [&](Day day, double burden) {
        for (const char* item : {"anxiety", "poor sleep", "tremor", "irritability"})
            course.rate_at(at_clock(day, {720}), item,
                           static_cast<int>(std::clamp(std::lround(5 + burden + noise(random)), 0L, 10L)));
    };
    for (int day = -14; day < 0; ++day) rate(kFirstStep + days(day), level);
    for (int step = 0; step < 6; ++step) {
        const std::int64_t share = cut(random);
        daily = daily * (1000 - share) / 1000;
        const Day starts = kFirstStep + days(step * days_per_step);
        course.step(starts, daily);
        rise = per_ten * std::log(1 / (1 - static_cast<double>(share) / 1000)) / std::log(1 / 0.9);
        // It comes on the first day and is gone well before the next cut.
        const int last_day = std::min(10, days_per_step / 2);
        for (int day = 0; day < days_per_step; ++day)
            rate(starts + days(day), day >= 1 && day <= last_day ? rise : 0);
    }
    return course.at(kFirstStep + days(6 * days_per_step - 1)).input;
}

double coverage(double per_ten, int days_per_step, int seeds) {
    int covered = 0;
    for (int seed = 0; seed < seeds; ++seed) {
        const auto view = assess(simulated(static_cast<std::uint64_t>(seed) + 1, per_ten, days_per_step));
        EXPECT_EQ(view.sensitivity.steps, 6);
        covered += view.sensitivity.estimate && view.sensitivity.estimate->low <= per_ten &&
                   per_ten <= view.sensitivity.estimate->high;
    }
    return static_cast<double>(covered) / seeds;
}

// 10 000 courses in all; the share that is found may differ by chance, by 3.3 standard errors here.
TEST(SensitivityInterval, CoversTheTruthAboutAsOftenAsItClaims) {
    for (const auto& [per_ten, days_per_step] : {std::pair{0.0, 28}, {0.8, 28}, {1.6, 28}, {0.8, 14}}) {
        const int courses = cases(2500);
        const double share = coverage(per_ten, days_per_step, courses);
        RecordProperty("coverage_at_" + std::to_string(per_ten) + "_" + std::to_string(days_per_step),
                       std::to_string(share));
        std::printf("rise of %.1f a cut of 10 %%, %d days a step: covered in %.1f %%\n", per_ten,
                    days_per_step, 100 * share);
        EXPECT_NEAR(share, kSensitivityLevel,
                    3.3 * std::sqrt(kSensitivityLevel * (1 - kSensitivityLevel) / courses));
    }
}

}  // namespace
}  // namespace evenfall
