// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/adjust.h"

#include <algorithm>
#include <cmath>

#include "planning/percent_text.h"
#include "planning/taper_check.h"
#include "units/dose_text.h"

namespace evenfall {

using std::chrono::days;

Result<Plan> with_smaller_next_cut(const Plan& plan, const Replan& change, Share next, const Rules& rules,
                                   const std::stop_token& stop) {
    if (next >= change.request.target) {
        const auto [asked, target] = planning::percents_apart(next, change.request.target);
        return Fault{"adjust-not-smaller", "plan.target_percent", {{"percent", asked}, {"target", target}}};
    }
    Replan first = change;
    first.request.target = next;
    const auto smaller = replan(plan, first, rules, stop);
    if (!smaller) return smaller.faults();
    const auto kept = static_cast<std::size_t>(change.keep);
    if (smaller->steps.size() <= kept + 1 || smaller->steps[kept].daily.is_zero()) return *smaller;
    Replan rest = change;
    rest.keep = change.keep + 1;
    rest.resume = smaller->steps[kept + 1].starts;
    rest.request.commit_steps = std::max(change.request.commit_steps - 1, 0);
    auto planned = replan(*smaller, rest, rules, stop);
    if (!planned) return planned.faults();
    planned->request.commit_steps = change.request.commit_steps;
    return planned;
}

std::vector<Flag> after_missed(const std::string& drug, int days_without, const Formulary& formulary,
                               const Rules& rules) {
    const Args args{{"drug", drug}, {"days", std::to_string(days_without)}};
    std::vector<Flag> flags{{"missed-doses", args, {}}};
    const Drug* known = formulary.find(drug);
    if (!known) return flags;
    constexpr double kDay = 24;
    const double slowest = slowest_half_life_h(known->kinetics);
    if (days_without * kDay >= rules.number("missed-tolerance", "half_lives") * slowest)
        flags.push_back({"missed-tolerance", args, {}});
    if (slowest <= rules.number("missed-short", "hours")) flags.push_back({"missed-short", args, {}});
    return flags;
}

Result<Plan> plan_from_now(const Plan& plan, const Regimen& now, Day since, const TaperInput& input,
                           const Rules& rules, const std::stop_token& stop) {
    PlanRequest request = plan.request;
    if (planning::dose_times_of(now, request.drug).empty())
        return Fault{"adjust-nothing-taken", "regimen", {{"drug", request.drug}}};
    TaperInput base = input;
    base.start = now;
    request.start = std::max(since + days(request.days_per_step), input.today.value_or(since));
    // An end that has been passed already is no end any more.
    const Dose daily = daily_amount(now, request.drug);
    if (request.end_amount && *request.end_amount >= daily) request.end_amount.reset();
    if (request.last_dose && *request.last_dose >= daily) request.last_dose.reset();
    return plan_taper(request, base, rules, stop);
}

}  // namespace evenfall
