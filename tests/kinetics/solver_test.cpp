// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gtest/gtest.h>

#include "kinetics/constants.h"
#include "kinetics/reference.h"

// The levels against the GNU Scientific Library's solvers of ordinary differential equations.

using namespace evenfall;
using namespace evenfall::kinetics;

namespace {

constexpr std::size_t kPlaces = 6;

int slope(double, const double x[], double d[], void* constants) {
    reference::Amounts amounts{};
    std::copy(x, x + kPlaces, amounts.begin());
    const reference::Amounts result = reference::derivative(*static_cast<Kinetics*>(constants), amounts);
    for (std::size_t i = 0; i < kPlaces; ++i) d[i] = static_cast<double>(result[i]);
    return GSL_SUCCESS;
}

/// The equations are linear: column j is the slope at the j-th unit state.
int jacobian(double, const double[], double* cells, double in_time[], void* constants) {
    for (std::size_t j = 0; j < kPlaces; ++j) {
        reference::Amounts unit{};
        unit[j] = 1;
        const reference::Amounts column = reference::derivative(*static_cast<Kinetics*>(constants), unit);
        for (std::size_t i = 0; i < kPlaces; ++i) cells[i * kPlaces + j] = static_cast<double>(column[i]);
        in_time[j] = 0;
    }
    return GSL_SUCCESS;
}

class Solver {
  public:
    Solver(Kinetics& kinetics, const gsl_odeiv2_step_type* type, double relative)
        : system_{slope, jacobian, kPlaces, &kinetics},
          driver_(gsl_odeiv2_driver_alloc_y_new(&system_, type, 1e-3, 1e-13, relative)) {}
    ~Solver() { gsl_odeiv2_driver_free(driver_); }
    Solver(const Solver&) = delete;
    Solver& operator=(const Solver&) = delete;

    void advance(double& from, double to, std::array<double, kPlaces>& x) {
        gsl_odeiv2_driver_reset(driver_);
        if (to <= from) return;
        ASSERT_EQ(gsl_odeiv2_driver_apply(driver_, &from, to, x.data()), GSL_SUCCESS);
    }

  private:
    gsl_odeiv2_system system_;
    gsl_odeiv2_driver* driver_;
};

/// The largest difference of any column, as a share of the column's peak.
double difference(Kinetics kinetics, const std::vector<TimedDose>& doses, const Grid& grid,
                  const gsl_odeiv2_step_type* type, double relative) {
    const Levels found = levels(model_of(kinetics), {}, doses, grid);
    Solver solver(kinetics, type, relative);
    std::array<double, kPlaces> x{};
    std::vector<double> apart(found.values.size());
    double now = 0;
    auto dose = doses.begin();
    for (std::size_t i = 0; i < grid.count; ++i) {
        for (; dose != doses.end() && dose->time_h + kinetics.lag_h <= grid.at(i); ++dose) {
            solver.advance(now, dose->time_h + kinetics.lag_h, x);
            x[0] += kinetics.bioavailability * dose->mg;
        }
        solver.advance(now, grid.at(i), x);
        std::size_t column = 0;
        for (std::size_t place = 0; place < 3 + kinetics.metabolites.size(); ++place) {
            if (place == 2 && !kinetics.distribution) continue;
            apart[column] = std::max(apart[column], std::abs(found.values[column][i] - x[place]));
            ++column;
        }
    }
    double worst = 0;
    for (std::size_t c = 0; c < apart.size(); ++c)
        worst = std::max(worst, apart[c] / *std::max_element(found.values[c].begin(), found.values[c].end()));
    return worst;
}

}  // namespace

TEST(Solver, ARungeKuttaSolverFindsTheSameLevelsForRandomConstantsAndDosings) {
    RandomKinetics random(31);
    for (int round = 0; round < 120; ++round) {
        const Kinetics kinetics = random.constants();
        EXPECT_LT(difference(kinetics, random.dosing(5), {0, 1, 140}, gsl_odeiv2_step_rk8pd, 1e-11), 1e-8)
            << "round " << round;
    }
}

TEST(Solver, AMultistepSolverForStiffEquationsFindsTheSameLevels) {
    RandomKinetics random(32);
    for (int round = 0; round < 12; ++round) {
        const Kinetics kinetics = random.constants();
        EXPECT_LT(difference(kinetics, random.dosing(2), {0, 2, 30}, gsl_odeiv2_step_msbdf, 1e-11), 1e-8)
            << "round " << round;
    }
}

TEST(Solver, ARungeKuttaSolverAgreesWhereRatesRunTogether) {
    for (const double gap : {1e-2, 1e-6, 1e-10, 1e-14, 0.0}) {
        Kinetics kinetics = one_compartment(0.2, 0.2 * (1 + gap));
        kinetics.metabolites = {metabolite("m", "drug", 1, half_life(0.2 * (1 - gap)))};
        EXPECT_LT(difference(kinetics, {{0, 10}, {12, 5}}, {0, 0.5, 200}, gsl_odeiv2_step_rk8pd, 1e-11),
                  1e-8);
    }
}
