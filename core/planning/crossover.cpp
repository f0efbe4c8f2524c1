// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/crossover.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "planning/crossover_levels.h"
#include "planning/crossover_person.h"
#include "planning/crossover_stages.h"
#include "units/dose_text.h"

namespace evenfall {

namespace {

using namespace planning;

constexpr int kMostDaysPerStage = 90;

std::string taken(const Regimen& regimen) {
    std::string names;
    for (const std::string& agent : agents_of(regimen)) names += (names.empty() ? "" : ", ") + agent;
    return names;
}

void check_agents(const CrossoverInput& input, const Formulary& formulary, Faults& faults) {
    for (const auto& [drug, place] : {std::pair(input.from, "crossover.from"), {input.to, "crossover.to"}}) {
        const Drug* known = formulary.find(drug);
        if (!known)
            faults.push_back({"crossover-drug-unknown", place, {{"drug", drug}}});
        else if (!known->equivalence)
            faults.push_back({"crossover-no-equivalence", place, {{"drug", drug}}});
    }
    if (input.from == input.to)
        faults.push_back({"crossover-same-drug", "crossover.to", {{"drug", input.to}}});
    else if (daily_amount(input.regimen, input.from).is_zero())
        faults.push_back({"crossover-drug-not-in-regimen",
                          "crossover.from",
                          {{"drug", input.from}, {"taken", taken(input.regimen)}}});
}

void check_dose_times(const CrossoverInput& input, Faults& faults) {
    std::set<std::pair<std::string, ClockTime>> seen;
    for (std::size_t i = 0; i < input.regimen.doses.size(); ++i) {
        const DoseTime& dose = input.regimen.doses[i];
        if (dose.amount <= Dose() || !seen.insert({dose.drug, dose.at}).second)
            faults.push_back({"crossover-dose-times",
                              "regimen[" + std::to_string(i) + "]",
                              {{"drug", dose.drug}, {"at", print_clock(dose.at)}}});
    }
}

void check_products(const CrossoverInput& input, const Rules& rules, Faults& faults) {
    const PieceTable table(input.products, input.to, PieceWeights::from(rules), Dose::milligrams(100));
    if (table.products().empty())
        faults.push_back({"crossover-no-product", "products", {{"drug", input.to}}});
    else if (!table.searchable())
        faults.push_back({"crossover-grid-too-fine", "products", {{"drug", input.to}}});
}

Faults check(const CrossoverInput& input, const Formulary& formulary, const Rules& rules) {
    Faults faults;
    check_agents(input, formulary, faults);
    check_dose_times(input, faults);
    if (input.days_per_stage < 1 || input.days_per_stage > kMostDaysPerStage)
        faults.push_back(
            {"crossover-days-range",
             "crossover.days_per_stage",
             {{"days", std::to_string(input.days_per_stage)}, {"most", std::to_string(kMostDaysPerStage)}}});
    check_products(input, rules, faults);
    return faults;
}

enum class Side { under, over };

Excursion excursion(const std::vector<double>& averages, Day first, double limit, Side side) {
    const double sign = side == Side::under ? -1 : 1;
    Excursion found;
    for (std::size_t i = 0; i < averages.size(); ++i) {
        const double off = sign * (averages[i] - 100);
        if (sign * (averages[i] - limit) > 0) ++found.days;
        constexpr double kNothing = 1e-6;  // rounding of the model's own arithmetic
        if (off <= std::max(found.percent, kNothing)) continue;
        found.percent = off;
        found.day = first + std::chrono::days(static_cast<int>(i));
    }
    return found;
}

class Planner {
  public:
    Planner(const CrossoverInput& input, const Formulary& formulary, const Rules& rules)
        : input_(input), formulary_(formulary), rules_(rules) {}

    // Empty where the portion makes no plan of its own.
    Result<std::optional<CrossoverPlan>> plan(Portion portion, int days) const {
        auto stages = lay_stages(input_, portion, days, formulary_, rules_);
        if (!stages) return stages.faults();
        if (stages->empty()) return std::optional<CrossoverPlan>();
        CrossoverPlan plan;
        plan.portion = portion;
        plan.days_per_stage = days;
        plan.stages = *std::move(stages);
        const auto low = day_averages(input_, plan.stages, formulary_, JudgedAt::least_and_fast);
        if (!low) return low.faults();
        const auto high = day_averages(input_, plan.stages, formulary_, JudgedAt::most_and_slow);
        if (!high) return high.faults();
        plan.dip = excursion(*low, input_.start, rules_.number("crossover-band", "low_percent"), Side::under);
        plan.overshoot =
            excursion(*high, input_.start, rules_.number("crossover-band", "high_percent"), Side::over);
        plan.steady_on = plan.stages.back().starts + std::chrono::days(days_to_steady(input_, formulary_));
        add_flags(plan);
        return std::optional(std::move(plan));
    }

  private:
    void add_flags(CrossoverPlan& plan) const {
        for (CrossoverStage& stage : plan.stages) stage.flags.push_back({"crossover-review", {}, {}});
        std::vector<Flag> first =
            crossover_concerns(input_.to, {input_.risks, input_.other_medicines}, formulary_);
        if (plan.stages.size() == 1)
            first.push_back(
                {"crossover-one-day",
                 {{"drug", input_.from}, {"dose", print_dose(daily_amount(input_.regimen, input_.from))}},
                 {}});
        std::vector<Flag>& flags = plan.stages.front().flags;
        flags.insert(flags.begin(), first.begin(), first.end());
        plan.stages.back().flags.push_back(
            {"crossover-first-cut", {{"day", print_day(first_cut_on(plan))}}, {}});
    }
    Day first_cut_on(const CrossoverPlan& plan) const {
        const int days = rules_.whole("crossover-first-cut", "days");
        return std::max(plan.stages.back().starts + std::chrono::days(days), plan.steady_on);
    }

    const CrossoverInput& input_;
    const Formulary& formulary_;
    const Rules& rules_;
};

bool better(const CrossoverPlan& a, const CrossoverPlan& b) {
    const auto place = [](const CrossoverPlan& plan) {
        return std::tuple(std::lround(plan.overshoot.percent * 10), std::lround(plan.dip.percent * 10),
                          plan.stages.size(), plan.days_per_stage);
    };
    return place(a) < place(b);
}

}  // namespace

Result<std::vector<CrossoverPlan>> plan_crossover(const CrossoverInput& input, const Formulary& formulary,
                                                  const Rules& rules, const std::stop_token& stop) {
    const Faults faults = check(input, formulary, rules);
    if (!faults.empty()) return faults;
    std::set<int> lengths{input.days_per_stage};
    for (const char* name : {"short_days", "middle_days", "long_days"})
        lengths.insert(rules.whole("crossover-plans", name));
    const Planner planner(input, formulary, rules);
    std::vector<CrossoverPlan> plans;
    for (const Portion portion : {Portion::whole, Portion::half})
        for (const int days : lengths) {
            if (stop.stop_requested()) return Fault{"crossover-stopped", "crossover", {}};
            auto plan = planner.plan(portion, days);
            if (!plan) return plan.faults();
            const bool alone = *plan && (*plan)->stages.size() == 1;
            if (*plan && (!alone || days == *lengths.begin())) plans.push_back(std::move(**plan));
        }
    std::stable_sort(plans.begin(), plans.end(), better);
    return plans;
}

}  // namespace evenfall
