// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover.h"

#include <cmath>

#include <gtest/gtest.h>

#include "kinetics/model.h"
#include "planning/crossover_levels.h"
#include "planning/crossover_stages.h"
#include "planning/planning_fixture.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

/// Alprazolam 0.5 mg at 08:00, 0.5 mg at 14:00 and 1 mg at 22:00 to diazepam.
CrossoverInput alprazolam() {
    CrossoverInput input;
    input.regimen.doses = {dose_at("08:00", "alprazolam", "0.5"), dose_at("14:00", "alprazolam", "0.5"),
                           dose_at("22:00", "alprazolam", "1")};
    input.from = "alprazolam";
    input.to = "diazepam";
    input.start = day_at(2027, 1, 4);
    input.products = {solid("alprazolam", "0.5", Cuts::halves), solid("diazepam", "5", Cuts::halves),
                      solid("diazepam", "2", Cuts::halves)};
    return input;
}

std::vector<CrossoverPlan> plans_of(const CrossoverInput& input) {
    return plan_crossover(input, formulary(), shipped_rules()).value();
}

const CrossoverPlan& whole_weekly(const std::vector<CrossoverPlan>& plans) {
    for (const CrossoverPlan& plan : plans)
        if (plan.portion == Portion::whole && plan.days_per_stage == 7) return plan;
    throw std::logic_error("no plan of whole dose times by the week");
}

std::string row(const CrossoverStage& stage) {
    std::string text = std::to_string(stage.number) + " " + print_day(stage.starts);
    for (const PlannedDose& dose : stage.doses)
        text +=
            " | " + print_clock(dose.at) + " " + dose.drug.substr(0, 3) + " " + print_mg_digits(dose.amount);
    return text;
}

TEST(Crossover, DoseTimesAreReplacedOneByOneTheEveningFirst) {
    // UK formulary wording (from memory): stepwise, one dose at a time, preferably at night first. 1 mg of
    // alprazolam is 10 mg of diazepam (the 2025 joint guideline's government column).
    const auto plans = plans_of(alprazolam());
    const CrossoverPlan& plan = whole_weekly(plans);
    ASSERT_EQ(plan.stages.size(), 3U);
    EXPECT_EQ(row(plan.stages[0]), "1 2027-01-04 | 08:00 alp 0.5 | 14:00 alp 0.5 | 22:00 dia 10");
    EXPECT_EQ(row(plan.stages[1]), "2 2027-01-11 | 08:00 alp 0.5 | 14:00 dia 5 | 22:00 dia 10");
    EXPECT_EQ(row(plan.stages[2]), "3 2027-01-18 | 08:00 dia 5 | 14:00 dia 5 | 22:00 dia 10");
    EXPECT_EQ(plan.stages[2].daily.at("alprazolam"), Dose());
    EXPECT_EQ(plan.stages[2].daily.at("diazepam"), mg("20"));
}

TEST(Crossover, OneDoseADayFromThreeTakesAboutAWeekInAll) {
    // UK formulary wording (from memory): over about a week in all. Three dose times, every third day.
    CrossoverInput input = alprazolam();
    input.days_per_stage = 3;
    for (const CrossoverPlan& plan : plans_of(input))
        if (plan.portion == Portion::whole && plan.days_per_stage == 3) {
            EXPECT_EQ(plan.stages.back().starts, day_at(2027, 1, 10));
        }
}

TEST(Crossover, TheOrderCanBeChanged) {
    CrossoverInput input = alprazolam();
    input.order = {clock_time("08:00")};
    const auto plans = plans_of(input);
    EXPECT_EQ(row(whole_weekly(plans).stages[0]), "1 2027-01-04 | 08:00 dia 5 | 14:00 alp 0.5 | 22:00 alp 1");
    EXPECT_EQ(row(whole_weekly(plans).stages[1]),
              "2 2027-01-11 | 08:00 dia 5 | 14:00 alp 0.5 | 22:00 dia 10");
}

TEST(Crossover, HalvesAndLengthsAreLaidSideBySide) {
    int halves = 0, wholes = 0;
    for (const CrossoverPlan& plan : plans_of(alprazolam())) {
        (plan.portion == Portion::half ? halves : wholes) += 1;
        if (plan.portion == Portion::half) {
            ASSERT_EQ(plan.stages.size(), 6U);
            EXPECT_EQ(row(plan.stages[0]),
                      "1 2027-01-04 | 08:00 alp 0.5 | 14:00 alp 0.5 | 22:00 alp 0.5 | 22:00 dia 5");
        }
    }
    EXPECT_EQ(halves, 3);
    EXPECT_EQ(wholes, 3);
}

TEST(Crossover, EveryStageIsExactAndTheOldAgentOnlyFalls) {
    CrossoverInput input = alprazolam();
    input.regimen.doses.push_back(dose_at("23:00", "temazepam", "15"));
    for (const CrossoverPlan& plan : plans_of(input)) {
        std::map<ClockTime, Dose> before;
        for (const DoseTime& dose : input.regimen.doses)
            if (dose.drug == input.from) before[dose.at] = dose.amount;
        for (const CrossoverStage& stage : plan.stages) {
            std::map<ClockTime, Dose> now;
            std::map<std::string, Dose> sums;
            for (const PlannedDose& dose : stage.doses) {
                sums[dose.drug] += dose.amount;
                if (dose.drug == input.from) now[dose.at] = dose.amount;
                const Dose made = dose.drug == "temazepam" ? dose.amount : amount_of(dose.pieces);
                EXPECT_EQ(made, dose.amount) << row(stage);
            }
            for (const auto& [at, amount] : now) EXPECT_LE(amount, before[at]) << row(stage);
            for (const auto& [drug, amount] : stage.daily) EXPECT_EQ(amount, sums[drug]) << row(stage);
            EXPECT_EQ(stage.daily.at("temazepam"), mg("15"));
            before = now;
        }
        EXPECT_TRUE(before.empty());
    }
}

TEST(Crossover, TheBestPlanStandsFirst) {
    const auto plans = plans_of(alprazolam());
    for (std::size_t i = 1; i < plans.size(); ++i)
        EXPECT_LE(plans[i - 1].overshoot.percent, plans[i].overshoot.percent + 0.1);
}

// The same amounts by a Runge-Kutta solver of the fourth order: gut, parent, tissue, metabolites.
struct Simulated {
    explicit Simulated(const Kinetics& k) : kinetics(k) {
        back = k.distribution ? k.distribution->back_per_h : 0;
        to = k.distribution ? k.distribution->to_tissue_per_h : 0;
        const double terminal = std::log(2) / k.half_life_h;
        // The terminal rate solves (to + out - l)(back - l) = to * back.
        out = k.distribution ? to * back / (back - terminal) + terminal - to : terminal;
        potency.push_back({1, 1 / out});
        std::vector<double> passing;
        for (const Metabolite& m : k.metabolites) {
            from.push_back(source(m));
            passing.push_back(m.formed_fraction *
                              (from.back() == 0 ? 1 : passing[static_cast<std::size_t>(from.back() - 1)]));
            potency.push_back({m.relative_potency, passing.back() * m.half_life_h / std::log(2)});
        }
        for (const auto& [weight, area] : potency) total += weight * area * k.bioavailability;
        x.assign(3 + k.metabolites.size(), 0.0);
    }
    // 0 for the parent, else 1 for the first metabolite and so on.
    int source(const Metabolite& formed) const {
        for (std::size_t i = 0; i < kinetics.metabolites.size(); ++i)
            if (kinetics.metabolites[i].name == formed.from) return static_cast<int>(i) + 1;
        return 0;
    }
    std::vector<double> slope(const std::vector<double>& y) const {
        const double in = std::log(2) / kinetics.absorption_half_life_h;
        std::vector<double> d{-in * y[0], in * y[0] - (out + to) * y[1] + back * y[2],
                              to * y[1] - back * y[2]};
        for (std::size_t i = 0; i < kinetics.metabolites.size(); ++i) {
            const Metabolite& m = kinetics.metabolites[i];
            const auto before = static_cast<std::size_t>(from[i]);
            const double formed =
                before == 0 ? out * y[1]
                            : std::log(2) / kinetics.metabolites[before - 1].half_life_h * y[2 + before];
            d.push_back(m.formed_fraction * formed - std::log(2) / m.half_life_h * y[3 + i]);
        }
        return d;
    }
    void step(double h) {
        const auto moved = [&](const std::vector<double>& k, double by) {
            std::vector<double> y = x;
            for (std::size_t i = 0; i < y.size(); ++i) y[i] += by * k[i];
            return y;
        };
        const auto a = slope(x), b = slope(moved(a, h / 2)), c = slope(moved(b, h / 2)),
                   d = slope(moved(c, h));
        for (std::size_t i = 0; i < x.size(); ++i) x[i] += h / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
    }
    double level() const {
        double sum = x[1];
        for (std::size_t i = 0; i < kinetics.metabolites.size(); ++i)
            sum += kinetics.metabolites[i].relative_potency * x[3 + i];
        return 24 * sum / total;
    }
    // The average level over one day with these doses (hours, mg).
    double day(const std::vector<std::pair<int, double>>& doses) {
        constexpr int kPerHour = 40;
        double sum = 0;
        for (int n = 0; n < 24 * kPerHour; ++n) {
            for (const auto& [hour, amount] : doses)
                if (n == hour * kPerHour) x[0] += kinetics.bioavailability * amount;
            const double before = level();
            step(1.0 / kPerHour);
            sum += (before + level()) / 2;
        }
        return sum / (24 * kPerHour);
    }
    Kinetics kinetics;
    double back = 0, to = 0, out = 0, total = 0;
    std::vector<std::pair<double, double>> potency;  // and its area for 1 mg
    std::vector<int> from;
    std::vector<double> x;
};

std::vector<std::pair<int, double>> hours_of(const CrossoverStage& stage, const std::string& drug) {
    std::vector<std::pair<int, double>> hours;
    for (const PlannedDose& dose : stage.doses)
        if (dose.drug == drug) hours.emplace_back(dose.at.minutes / 60, dose.amount.mg());
    return hours;
}

TEST(Crossover, TheDayAveragesAgreeWithAnIndependentSolver) {
    const CrossoverInput input = alprazolam();
    const auto stages = planning::lay_stages(input, Portion::whole, 7, formulary(), shipped_rules()).value();
    const auto averages =
        planning::day_averages(input, stages, formulary(), planning::JudgedAt::least_and_fast).value();
    Simulated old_agent(kinetics::fast_end(formulary().find("alprazolam")->kinetics));
    Simulated new_agent(kinetics::fast_end(formulary().find("diazepam")->kinetics));
    for (int warm = 0; warm < 20; ++warm) old_agent.day({{8, 0.5}, {14, 0.5}, {22, 1}});
    // Least diazepam of alprazolam: 1.6 mg to 10 mg, of usually 1 mg to 10 mg.
    const double worth = 1 / 1.6;
    ASSERT_GE(averages.size(), 14U + 7U);
    for (std::size_t i = 0; i < averages.size(); ++i) {
        const CrossoverStage& stage = stages[std::min<std::size_t>(i / 7, 2)];
        const double level = 10 * old_agent.day(hours_of(stage, "alprazolam")) +
                             worth * new_agent.day(hours_of(stage, "diazepam"));
        EXPECT_NEAR(averages[i], 100 * level / 20, 0.01) << "day " << i;
    }
}

TEST(Crossover, ASlowAgentDipsAndTheDipIsFoundInTheAverages) {
    const CrossoverInput input = alprazolam();
    const auto plans = plans_of(input);
    const CrossoverPlan& plan = whole_weekly(plans);
    const auto low =
        planning::day_averages(input, plan.stages, formulary(), planning::JudgedAt::least_and_fast).value();
    EXPECT_DOUBLE_EQ(100 - *std::min_element(low.begin(), low.end()), plan.dip.percent);
    EXPECT_EQ(plan.dip.days, std::count_if(low.begin(), low.end(), [](double each) { return each < 85; }));
    EXPECT_GT(plan.dip.percent, 15);
    // Five times 62 h, of nordiazepam, is 310 h: 13 days after the last stage.
    EXPECT_EQ(plan.steady_on, plan.stages.back().starts + std::chrono::days(13));
}

TEST(Crossover, TheDipIsReadAtTheLeastDiazepamAndTheOvershootAtTheMost) {
    // Alprazolam is usually 1 mg to 10 mg of diazepam, from 0.5 to 1.6 mg; lorazepam has a range of its own.
    // Once all has arrived, what is taken is worth both agents' figures at that end against the usual ones.
    CrossoverInput input = alprazolam();
    input.to = "lorazepam";
    input.products = {input.products[0], solid("lorazepam", "1", Cuts::quarters)};
    const auto plans = plans_of(input);
    const CrossoverPlan& plan = whole_weekly(plans);
    const Equivalence& old_agent = *formulary().find("alprazolam")->equivalence;
    const Equivalence& new_agent = *formulary().find("lorazepam")->equivalence;
    const double taken = plan.stages.back().daily.at("lorazepam").mg();
    const auto share = [&](Dose of_old, Dose of_new) {
        return 100 * taken * (10 / of_new.mg()) * (old_agent.usual.mg() / of_old.mg()) / 20;
    };
    const auto low =
        planning::day_averages(input, plan.stages, formulary(), planning::JudgedAt::least_and_fast).value();
    const auto high =
        planning::day_averages(input, plan.stages, formulary(), planning::JudgedAt::most_and_slow).value();
    EXPECT_NEAR(low.back(), share(old_agent.least_diazepam, new_agent.least_diazepam), 2);
    EXPECT_NEAR(high.back(), share(old_agent.most_diazepam, new_agent.most_diazepam), 5);
    EXPECT_LT(low.back(), 100);
    EXPECT_GT(high.back(), 100);
}

TEST(Crossover, CrossingBackWorksAsWell) {
    CrossoverInput input;
    input.regimen.doses = {dose_at("08:00", "diazepam", "5"), dose_at("22:00", "diazepam", "10")};
    input.from = "diazepam";
    input.to = "lorazepam";
    input.start = day_at(2027, 1, 4);
    input.products = {solid("lorazepam", "1", Cuts::halves)};
    const auto plans = plans_of(input);
    EXPECT_EQ(whole_weekly(plans).stages.back().daily.at("lorazepam"), mg("3"));
    EXPECT_TRUE(whole_weekly(plans).stages.front().doses.front().pieces.empty());
}

TEST(Crossover, WhatSpeaksAgainstCrossingStandsFirst) {
    CrossoverInput input = alprazolam();
    for (const char* risk : {"weak liver", "older age", "breathing trouble", "opioid", "falls"})
        input.risks.answers[risk] = Answer::yes;
    for (const CrossoverPlan& plan : plans_of(input)) {
        const std::vector<Flag>& flags = plan.stages.front().flags;
        const std::vector<std::string> expected{"crossover-weak-liver", "crossover-breathing-opioid",
                                                "crossover-breathing",  "crossover-older-falls",
                                                "crossover-opioid",     "crossover-falls"};
        ASSERT_GE(flags.size(), expected.size());
        for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_EQ(flags[i].rule, expected[i]);
        EXPECT_TRUE(has_flag(plan.stages.back().flags, "crossover-first-cut"));
    }
    for (const CrossoverPlan& plan : plans_of(alprazolam()))
        EXPECT_FALSE(has_flag(plan.stages.front().flags, "crossover-weak-liver"));
}

TEST(Crossover, ACompleteSwapInOneDayIsNamed) {
    CrossoverInput input = alprazolam();
    input.regimen.doses = {dose_at("22:00", "alprazolam", "0.5")};
    int one_day = 0;
    for (const CrossoverPlan& plan : plans_of(input)) {
        EXPECT_EQ(plan.stages.size() == 1, has_flag(plan.stages.front().flags, "crossover-one-day"));
        one_day += plan.stages.size() == 1;
    }
    EXPECT_EQ(one_day, 1);
}

TEST(Crossover, ARoundedDoseSaysHowFarItIsAway) {
    CrossoverInput input = alprazolam();
    input.regimen.doses[0].amount = mg("0.25");  // 2.5 mg of diazepam
    input.products[1].cuts = Cuts::whole;        // 2 mg, whole or half: 2 or 3, equally near
    const auto plans = plans_of(input);
    const CrossoverStage& last = whole_weekly(plans).stages.back();
    EXPECT_EQ(last.doses.front().amount, mg("2"));
    EXPECT_TRUE(has_flag(last.flags, "crossover-rounding"));
}

TEST(Crossover, OddRequestsAreRefusedInWords) {
    const auto refused = [](auto change, const std::string& id) {
        CrossoverInput input = alprazolam();
        change(input);
        EXPECT_TRUE(has_fault(plan_crossover(input, formulary(), shipped_rules()), id)) << id;
    };
    refused([](CrossoverInput& i) { i.to = "nothing known"; }, "crossover-drug-unknown");
    refused([](CrossoverInput& i) { i.to = i.from; }, "crossover-same-drug");
    refused([](CrossoverInput& i) { i.from = "lorazepam"; }, "crossover-drug-not-in-regimen");
    refused([](CrossoverInput& i) { i.days_per_stage = 0; }, "crossover-days-range");
    refused([](CrossoverInput& i) { i.products.resize(1); }, "crossover-no-product");
    refused([](CrossoverInput& i) { i.regimen.doses[1].at = i.regimen.doses[0].at; }, "crossover-dose-times");
    refused([](CrossoverInput& i) { i.products = {solid("diazepam", "10", Cuts::whole)}; },
            "crossover-new-not-makeable");
    refused([](CrossoverInput& i) { i.regimen.doses[0].amount = mg("0.4"); }, "crossover-old-not-makeable");
    refused(
        [](CrossoverInput& i) {
            i.products = {solid("diazepam", "0.333333", Cuts::whole), solid("diazepam", "1", Cuts::whole)};
        },
        "crossover-grid-too-fine");
    Formulary bare = formulary();
    bare.drugs.at("alprazolam").equivalence.reset();
    EXPECT_TRUE(has_fault(plan_crossover(alprazolam(), bare, shipped_rules()), "crossover-no-equivalence"));
}

TEST(Crossover, AStopIsObeyed) {
    std::stop_source source;
    source.request_stop();
    EXPECT_TRUE(has_fault(plan_crossover(alprazolam(), formulary(), shipped_rules(), source.get_token()),
                          "crossover-stopped"));
}

}  // namespace
}  // namespace evenfall
