// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/hard_people.h"

namespace evenfall::papers {

PaperSource forty_steps() {
    PaperSource source = two_steps();
    const Product tablet = source.plan->products.front();
    Step step = source.plan->steps.front();
    source.plan->steps.clear();
    for (int number = 1; number <= 40; ++number) {
        step.number = number;
        step.starts = day_at(2027, 1, 4) + std::chrono::days(7 * (number - 1));
        step.days = 7;
        step.doses = {dose(21 * 60, {piece(tablet, Cut::whole, 41 - number)})};
        step.daily = step.doses.front().amount;
        source.plan->steps.push_back(step);
    }
    return source;
}

PaperSource twelve_dose_times() {
    PaperSource source = two_steps();
    const Product tablet = source.plan->products.front();
    for (Step& step : source.plan->steps) {
        step.doses.clear();
        step.daily = {};
        for (int number = 1; number <= 12; ++number) {
            step.doses.push_back(dose(number * 110, {piece(tablet, Cut::whole, number)}));
            step.daily += step.doses.back().amount;
        }
    }
    return source;
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
