// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gtest/gtest.h>

#include "builder.h"
#include "kinetics/model.h"
#include "kinetics/reference.h"

// The predictions of proposals against the GNU Scientific Library's Runge–Kutta solver, which is given the
// equations, the doses and an empty body, and runs until nothing changes any more from day to day.

namespace evenfall {
namespace {

using namespace testing_diary;
namespace reference = kinetics::reference;

constexpr std::size_t kPlaces = 6;
constexpr int kStepsADay = 288;  // of five minutes

int slope(double, const double x[], double d[], void* constants) {
    reference::Amounts amounts{};
    std::copy(x, x + kPlaces, amounts.begin());
    const auto result = reference::derivative(*static_cast<Kinetics*>(constants), amounts);
    for (std::size_t i = 0; i < kPlaces; ++i) d[i] = static_cast<double>(result[i]);
    return GSL_SUCCESS;
}

/// The weight of each place of the equations in the relative level.
std::array<double, kPlaces> weights_of(const Kinetics& kinetics, const std::string& drug) {
    const auto model = kinetics::Model::make(kinetics, drug).value();
    std::array<double, kPlaces> weights{};
    std::size_t column = 0;
    for (std::size_t place = 0; place < 3 + kinetics.metabolites.size(); ++place)
        if (place != 2 || kinetics.distribution) weights[place] = model.relative_weights()[column++];
    return weights;
}

/// One agent's body, advanced by GSL.
class Body {
  public:
    explicit Body(const std::string& drug)
        : drug_(drug),
          kinetics_(formulary().find(drug)->kinetics),
          weights_(weights_of(kinetics_, drug)),
          system_{slope, nullptr, kPlaces, &kinetics_},
          driver_(gsl_odeiv2_driver_alloc_y_new(&system_, gsl_odeiv2_step_rk8pd, 1e-3, 1e-12, 1e-10)) {}
    ~Body() { gsl_odeiv2_driver_free(driver_); }
    Body(const Body&) = delete;
    Body& operator=(const Body&) = delete;

    /// A day of doses (lag 0 for the agents tested); the level (mg/day) after each step.
    std::vector<double> day(const std::vector<PlannedDose>& doses) {
        std::vector<double> levels;
        for (int step = 0; step < kStepsADay; ++step) {
            for (const PlannedDose& dose : doses)
                if (dose.drug == drug_ && dose.at.minutes == step * 1440 / kStepsADay)
                    x_[0] += kinetics_.bioavailability * dose.amount.mg();
            levels.push_back(level());
            double from = 0;
            gsl_odeiv2_driver_reset(driver_);
            EXPECT_EQ(gsl_odeiv2_driver_apply(driver_, &from, 24.0 / kStepsADay, x_.data()), GSL_SUCCESS);
        }
        return levels;
    }
    double lag_h() const { return kinetics_.lag_h; }

  private:
    double level() const {
        double sum = 0;
        for (std::size_t i = 0; i < kPlaces; ++i) sum += weights_[i] * x_[i];
        return sum;
    }

    std::string drug_;
    Kinetics kinetics_;
    std::array<double, kPlaces> weights_;
    std::array<double, kPlaces> x_{};
    gsl_odeiv2_system system_;
    gsl_odeiv2_driver* driver_;
};

double mean_of(const std::vector<double>& levels) {
    double sum = 0;
    for (const double level : levels) sum += level;
    return sum / static_cast<double>(levels.size());
}

/// The day once it repeats itself.
std::vector<double> settled_day(Body& body, const std::vector<PlannedDose>& doses) {
    std::vector<double> before = body.day(doses);
    for (int day = 0; day < 200; ++day) {
        std::vector<double> now = body.day(doses);
        if (std::abs(now.back() - before.back()) < 1e-7 * now.back()) return now;
        before = std::move(now);
    }
    return before;
}

StabilizationInput fortnight_of(const Regimen& taken, double tablet) {
    DiaryBuilder builder(7);
    builder.days_of(taken, 21, 10);
    auto input = input_of(builder.diary, {{{}, taken}});
    const std::string& drug = taken.doses.front().drug;
    input.products = {{drug, Form::tablet, mg(tablet), Cuts::halves, {}},
                      {"diazepam", Form::tablet, mg(2), Cuts::halves, {}}};
    return input;
}

TEST(ProposalLevels, AreThoseOfARungeKuttaSolverForEveryAgentThatIsSpread) {
    struct Case {
        const char* drug;
        double each, tablet;
    };
    for (const Case& given : {Case{"lorazepam", 1.5, 0.5}, Case{"alprazolam", 1, 0.25},
                              Case{"oxazepam", 15, 10}, Case{"clonazepam", 1, 0.5}, Case{"diazepam", 9, 2}}) {
        const auto result =
            check(fortnight_of(regimen(given.drug, {{8, given.each}, {20, given.each}}), given.tablet));
        int spread = 0;
        for (const Proposal& each : result.proposals) {
            if (each.kind != ProposalKind::spacing) continue;
            ++spread;
            Body body(given.drug);
            ASSERT_EQ(body.lag_h(), 0) << given.drug;
            const auto day = settled_day(body, each.doses);
            const double average = mean_of(day), trough = *std::ranges::min_element(day),
                         peak = *std::ranges::max_element(day);
            // Five minutes lie between two looks of the solver.
            EXPECT_NEAR(each.proposed.trough, 100 * trough / average, 0.2) << given.drug;
            EXPECT_NEAR(each.proposed.peak, 100 * peak / average, 0.5) << given.drug;
            EXPECT_NEAR(each.proposed.fluctuation, (peak - trough) / average, 0.01) << given.drug;
        }
        EXPECT_TRUE(spread > 0 || !result.no_proposal.empty()) << given.drug;
        if (given.drug != std::string("clonazepam") && given.drug != std::string("diazepam")) {
            EXPECT_GT(spread, 0) << given.drug;
        }
    }
}

TEST(ProposalLevels, OfEachStageOfACrossoverAreTheSolvers) {
    const Regimen taken = regimen("alprazolam", {{8, 1}, {22, 1}});
    auto input = fortnight_of(taken, 0.5);
    input.products[0] = {"alprazolam", Form::tablet, mg(1), Cuts::whole, {}};  // no spacing can be made of it
    const auto result = check(input);
    const auto crossed = std::ranges::find(result.proposals, ProposalKind::crossover, &Proposal::kind);
    ASSERT_NE(crossed, result.proposals.end());
    std::vector<PlannedDose> today;
    for (const DoseTime& dose : taken.doses) today.push_back({dose.at, dose.drug, dose.amount, {}});
    Body old("alprazolam"), fresh("diazepam");
    const double per_mg = 10 / formulary().find("alprazolam")->equivalence->usual.mg();
    settled_day(old, today);
    const double reference = per_mg * 2;
    for (const ProposedStage& stage : crossed->stages) {
        double last = 0;
        for (int day = 0; day < 7; ++day)
            last = per_mg * mean_of(old.day(stage.doses)) + mean_of(fresh.day(stage.doses));
        EXPECT_NEAR(stage.average, 100 * last / reference, 0.5);
    }
}

}  // namespace
}  // namespace evenfall
