// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover_levels.h"

#include <algorithm>
#include <cmath>

#include "kinetics/levels.h"
#include "kinetics/steady.h"

namespace evenfall::planning {

namespace {

using namespace kinetics;

constexpr double kHalfLives = 5;  // after which 97 % of a change has arrived

int days_of(double half_life_h) {
    return static_cast<int>(std::ceil(kHalfLives * half_life_h / 24));
}

Kinetics at_end(const Kinetics& constants, JudgedAt end) {
    return end == JudgedAt::least_and_fast ? fast_end(constants) : slow_end(constants);
}

// What is taken of an agent in a stage beyond what was taken of it all along.
std::vector<DailyDose> doses_in(const CrossoverStage& stage, const std::string& drug) {
    std::vector<DailyDose> doses;
    for (const PlannedDose& dose : stage.doses)
        if (dose.drug == drug) doses.push_back({dose.at.minutes / 60.0, dose.amount.mg()});
    return doses;
}

// The average of each day of an agent, mg/day, from steady state of the regimen before.
Result<std::vector<double>> averages(const CrossoverInput& input, const std::vector<CrossoverStage>& stages,
                                     const std::string& drug, const Kinetics& constants, int days) {
    auto model = Model::make(constants, drug);
    if (!model) return model.faults();
    const Start start = steady_start(*model, daily_doses(input.regimen, drug));
    std::vector<TimedDose> doses;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const int first = static_cast<int>((stages[i].starts - input.start).count());
        const bool last = i + 1 == stages.size();
        const int until = last ? days : static_cast<int>((stages[i + 1].starts - input.start).count());
        for (const TimedDose& dose : repeated(doses_in(stages[i], drug), until - first, first * 24.0))
            doses.push_back(dose);
    }
    return relative_averages(*model, start, doses, {24, 24, static_cast<std::size_t>(days)});
}

double per_mg(Dose equal_to_10_mg) {
    return diazepam_per_mg(equal_to_10_mg);
}

// What 1 mg of the new agent counts as, in diazepam. A plan's new doses come from the usual conversion. At an
// end of the published tables, the milligrams of the old agent which they stand for would be worth old.end of
// diazepam instead of old.usual, and each milligram of the new agent new.end: both taken at the end that
// gives the least diazepam for the dip, the most for the overshoot. The old agent that is still taken counts
// by its usual equivalence, as the average before does. With diazepam as the new agent only the old one's
// tables are left: per_mg(old.end) / per_mg(old.usual).
double new_per_mg(const Equivalence& old_agent, const Equivalence& new_agent, JudgedAt end) {
    const bool least = end == JudgedAt::least_and_fast;
    const Dose of_new = least ? new_agent.least_diazepam : new_agent.most_diazepam;
    const Dose of_old = least ? old_agent.least_diazepam : old_agent.most_diazepam;
    return per_mg(of_new) * per_mg(of_old) / per_mg(old_agent.usual);
}

// Agents that stay as they are keep their average.
double unchanged(const CrossoverInput& input, const Formulary& formulary) {
    double total = 0;
    for (const std::string& agent : agents_of(input.regimen)) {
        const Drug* drug = formulary.find(agent);
        if (agent != input.from && drug && drug->equivalence)
            total += daily_amount(input.regimen, agent).mg() * per_mg(drug->equivalence->usual);
    }
    return total;
}

}  // namespace

int days_to_steady(const CrossoverInput& input, const Formulary& formulary) {
    return days_of(std::max(slowest_half_life_h(formulary.find(input.from)->kinetics),
                            slowest_half_life_h(formulary.find(input.to)->kinetics)));
}

Result<std::vector<double>> day_averages(const CrossoverInput& input,
                                         const std::vector<CrossoverStage>& stages,
                                         const Formulary& formulary, JudgedAt end) {
    const Drug& from = *formulary.find(input.from);
    const Drug& to = *formulary.find(input.to);
    const Kinetics old_constants = at_end(from.kinetics, end), new_constants = at_end(to.kinetics, end);
    const int days =
        static_cast<int>((stages.back().starts - input.start).count()) +
        days_of(std::max(slowest_half_life_h(old_constants), slowest_half_life_h(new_constants)));
    const auto old_levels = averages(input, stages, input.from, old_constants, days);
    if (!old_levels) return old_levels.faults();
    const auto new_levels = averages(input, stages, input.to, new_constants, days);
    if (!new_levels) return new_levels.faults();
    const double stays = unchanged(input, formulary);
    const double old_per_mg = per_mg(from.equivalence->usual);
    const double before = stays + daily_amount(input.regimen, input.from).mg() * old_per_mg;
    const double already = daily_amount(input.regimen, input.to).mg();
    const double worth = new_per_mg(*from.equivalence, *to.equivalence, end);
    std::vector<double> percent;
    for (std::size_t i = 0; i < old_levels->size(); ++i) {
        const double added = (*new_levels)[i] - already;
        percent.push_back(100 * (stays + (*old_levels)[i] * old_per_mg + added * worth) / before);
    }
    return percent;
}

}  // namespace evenfall::planning
