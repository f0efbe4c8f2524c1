// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/hard_people.h"

#include "papers/steps.h"

namespace evenfall::papers {

namespace {

/// So many tablets at each time, in a day's order.
using Tablets = std::vector<std::pair<int, int>>;

/// Takes these tablets before the plan, and in steps of so many days after it.
PaperSource taking(const Tablets& before, const std::vector<Tablets>& steps, int days) {
    PaperSource source = two_steps();
    Plan& plan = *source.plan;
    const Product tablet = plan.products.front();
    const auto doses_of = [&](const Tablets& tablets) {
        std::vector<PlannedDose> doses;
        for (const auto& [minutes, count] : tablets)
            doses.push_back(dose(minutes, {piece(tablet, Cut::whole, count)}));
        return doses;
    };
    plan.start = regimen_of(doses_of(before));
    source.regimen = plan.start;
    plan.steps.clear();
    Dose last = daily_amount(plan.start, plan.request.drug);
    for (const Tablets& tablets : steps) {
        Step step;
        step.number = static_cast<int>(plan.steps.size()) + 1;
        step.starts = day_at(2027, 1, 4) + std::chrono::days(days * (step.number - 1));
        step.days = days;
        step.status = StepStatus::committed;
        step.doses = doses_of(tablets);
        step.daily = daily_amount(regimen_of(step.doses), plan.request.drug);
        step.percent_of_last = Share::cut(last, step.daily);
        last = step.daily;
        plan.steps.push_back(std::move(step));
    }
    return source;
}

}  // namespace

PaperSource forty_steps() {
    std::vector<Tablets> steps;
    for (int count = 40; count > 0; --count) steps.push_back({{21 * 60, count}});
    return taking({{21 * 60, 41}}, steps, 7);
}

PaperSource twelve_dose_times() {
    Tablets before, first, second;
    for (int number = 1; number <= 12; ++number) {
        const int minutes = number * 110;
        before.emplace_back(minutes, number == 12 ? 14 : number);
        first.emplace_back(minutes, number == 12 ? 13 : number);
        second.emplace_back(minutes, number);
    }
    return taking(before, {first, second}, 14);
}

PaperSource three_agents() {
    PaperSource source = two_agents();
    const Product temazepam{"temazepam", Form::capsule, Dose::milligrams(10), Cuts::whole, {}};
    for (Step& step : source.plan->steps)
        step.doses.push_back(dose(23 * 60, {piece(temazepam, Cut::whole, 2)}));
    return source;
}

PaperSource long_name() {
    PaperSource source = two_steps();
    // Latin without a space, Hebrew, Latin with combining marks, Latin with spaces.
    std::string name = std::string(40, 'W') + " ";
    for (int i = 0; i < 10; ++i) name += "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D ";
    for (int i = 0; i < 10; ++i) name += "Zoe\xCC\x88n\xCC\x83 ";
    for (int i = 0; i < 6; ++i) name += "Maria ";
    name += "Sol";
    source.person.name = name;
    source.prescriber = {name, "LIC-4471"};
    return source;
}

PaperSource nothing_agreed() {
    PaperSource source = two_steps();
    source.prescriber = {};
    for (Step& step : source.plan->steps) step.status = StepStatus::outlook;
    return source;
}

std::vector<std::pair<std::string, PaperSource>> hard_people() {
    std::vector<std::pair<std::string, PaperSource>> people = {
        {"two-steps", two_steps()},          {"every-risk", every_risk()},
        {"two-agents", two_agents()},        {"crossing-over", crossing_over()},
        {"from-a-bottle", from_a_bottle()},  {"down-to-off", down_to_off()},
        {"forty-steps", forty_steps()},      {"twelve-dose-times", twelve_dose_times()},
        {"three-agents", three_agents()},    {"long-name", long_name()},
        {"nothing-agreed", nothing_agreed()}};
    for (auto& [why, source] : people) source.supply = some_supply(source);
    return people;
}

}  // namespace evenfall::papers
