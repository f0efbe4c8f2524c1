// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <set>

#include "response/assess.h"

namespace evenfall::response {
namespace {

using std::chrono::days;

/// What was in force from each day on and has begun, the starting regimen first, in order of day; of two that
/// begin on one day the later in the list counts.
std::vector<DatedRegimen> in_force(const Context& context) {
    std::vector<DatedRegimen> taken;
    for (const DatedRegimen& each : context.input.taken)
        if (each.from <= context.today()) taken.push_back(each);
    std::ranges::stable_sort(taken, {}, &DatedRegimen::from);
    std::vector<DatedRegimen> result{{Day{}, context.input.before}};
    for (DatedRegimen& each : taken) {
        if (result.back().from == each.from) result.pop_back();
        result.push_back(std::move(each));
    }
    return result;
}

std::set<std::string> agents_of_both(const Regimen& a, const Regimen& b) {
    std::set<std::string> agents;
    for (const Regimen* regimen : {&a, &b})
        for (const DoseTime& dose : regimen->doses) agents.insert(dose.drug);
    return agents;
}

/// Whether the day's amount of some agent fell and of none rose.
bool is_cut(const Regimen& before, const Regimen& after) {
    bool fell = false;
    for (const std::string& agent : agents_of_both(before, after)) {
        const Dose was = daily_amount(before, agent), is = daily_amount(after, agent);
        if (is > was) return false;
        fell = fell || is < was;
    }
    return fell;
}

Dose as_usual_diazepam(const Regimen& regimen, const Formulary& formulary) {
    Dose total;
    for (const std::string& agent : agents_of(regimen)) {
        const Drug* drug = formulary.find(agent);
        if (drug && drug->equivalence)
            total += as_diazepam(daily_amount(regimen, agent), *drug->equivalence).usual;
    }
    return total;
}

Share cut_of(const Regimen& before, const Regimen& after, const Formulary& formulary) {
    const auto agents = agents_of(before);
    if (agents.size() == 1)
        return Share::cut(daily_amount(before, agents[0]), daily_amount(after, agents[0]));
    const Dose was = as_usual_diazepam(before, formulary);
    return was.is_zero() ? Share{} : Share::cut(was, as_usual_diazepam(after, formulary));
}

double slowest_h(const Context& context, const StepTaken& step) {
    double slowest = 0;
    for (const std::string& agent : agents_of(step.before.regimen))
        if (const Drug* drug = context.formulary.find(agent))
            slowest = std::max(slowest, slowest_half_life_h(drug->kinetics));
    return slowest;
}

/// Whether every agent's daily amount is the same: other hours or other shares of a day are no change of
/// dose.
bool same_dose(const Regimen& a, const Regimen& b) {
    return std::ranges::all_of(agents_of_both(a, b), [&](const std::string& agent) {
        return daily_amount(a, agent) == daily_amount(b, agent);
    });
}

/// The day from which another dose is taken, or tomorrow.
Day until_of(const std::vector<DatedRegimen>& all, std::size_t i, Day today) {
    for (std::size_t next = i + 1; next < all.size(); ++next)
        if (!same_dose(all[next].regimen, all[i].regimen)) return all[next].from;
    return today + days(1);
}

}  // namespace

const Regimen& regimen_on(const ResponseInput& input, Day day) {
    const DatedRegimen* found = nullptr;
    for (const DatedRegimen& each : input.taken)
        if (each.from <= day && (!found || each.from >= found->from)) found = &each;
    return found ? found->regimen : input.before;
}

std::vector<StepTaken> steps_taken(const Context& context) {
    const auto all = in_force(context);
    std::vector<StepTaken> steps;
    for (std::size_t i = 1; i < all.size(); ++i) {
        if (!is_cut(all[i - 1].regimen, all[i].regimen)) continue;
        StepTaken step;
        step.before = all[i - 1];
        step.after = all[i];
        step.until = until_of(all, i, context.today());
        step.cut = cut_of(step.before.regimen, step.after.regimen, context.formulary);
        step.number = static_cast<int>(steps.size()) + 1;
        steps.push_back(std::move(step));
    }
    return steps;
}

int lag_of(const Context& context, const StepTaken& step) {
    const double half_lives = context.rules.number("response-lag", "half_lives");
    const int most = context.rules.whole("response-lag", "most_days");
    return std::clamp(static_cast<int>(std::ceil(half_lives * slowest_h(context, step) / 24)), 1, most);
}

int wait_of(const Context& context, const StepTaken& step) {
    if (step.number > 1) return context.rules.whole("step-interval", "least_days");
    const double half_lives = context.rules.number("test-reduction", "half_lives");
    const int arrived = static_cast<int>(std::ceil(half_lives * slowest_h(context, step) / 24));
    return std::max(context.rules.whole("test-reduction", "wait_days"), arrived);
}

Windows windows_of(const Context& context, const StepTaken& step, std::optional<Day> earlier_after_ends,
                   bool& apart) {
    const Day starts = step.after.from;
    const Day noticed = starts + days(lag_of(context, step));
    Windows windows;
    windows.before = {starts - days(context.rules.whole("response-window", "before_days")), starts};
    apart = !earlier_after_ends || *earlier_after_ends <= windows.before.from;
    if (!apart &&
        starts - *earlier_after_ends >= days(context.rules.whole("response-window", "least_days"))) {
        windows.before.from = *earlier_after_ends;
        apart = true;
    }
    const Day after_ends = noticed + days(context.rules.whole("response-window", "after_days"));
    windows.after = {noticed, std::min(after_ends, step.until)};
    windows.since = {noticed, step.until};
    return windows;
}

}  // namespace evenfall::response
