// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/sequence.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "planning/floor.h"

namespace evenfall {

namespace {

using std::chrono::days;

/// What is left when a plan has ended: other agents as they were, its own at the last amount or gone.
Regimen left_after(const Plan& plan) {
    Regimen regimen;
    const std::vector<PlannedDose>* last = nullptr;
    if (!plan.steps.empty()) last = &plan.steps.back().doses;
    for (const DoseTime& dose : plan.start.doses) {
        if (dose.drug != plan.request.drug) {
            regimen.doses.push_back(dose);
            continue;
        }
        for (const PlannedDose& now : last ? *last : std::vector<PlannedDose>{})
            if (now.drug == dose.drug && now.at == dose.at)
                regimen.doses.push_back({dose.at, dose.drug, now.amount, dose.how, dose.why});
    }
    return regimen;
}

int wait_days(const Drug* drug, const Rules& rules) {
    constexpr double kHalfLives = 5, kDay = 24;
    const double hours = drug ? slowest_half_life_h(drug->kinetics) : 0;
    return std::max(rules.whole("sequence-wait", "days"),
                    static_cast<int>(std::ceil(kHalfLives * hours / kDay)));
}

Fault placed(Fault fault, std::size_t i) {
    if (i > 0) {
        const std::string at = "plan.then[" + std::to_string(i - 1) + "]";
        const bool own = fault.place.starts_with("plan");
        fault.place = own ? at + fault.place.substr(std::string("plan").size()) : at + ": " + fault.place;
    }
    return fault;
}

}  // namespace

Result<std::vector<Plan>> plan_sequence(const std::vector<PlanRequest>& requests, const TaperInput& input,
                                        const Formulary& formulary, const Rules& rules,
                                        const std::stop_token& stop) {
    if (requests.empty()) return Fault{"sequence-empty", "plan", {}};
    std::set<std::string> seen;
    std::vector<Plan> plans;
    TaperInput now = input;
    for (std::size_t i = 0; i < requests.size(); ++i) {
        PlanRequest request = requests[i];
        if (!seen.insert(request.drug).second)
            return placed({"sequence-drug-twice", "plan.drug", {{"drug", request.drug}}}, i);
        const Drug* drug = formulary.find(request.drug);
        now.candidates = drug ? floor_candidates(*drug, input.products) : std::vector<Product>{};
        now.slowest_half_life_h = drug ? slowest_half_life_h(drug->kinetics) : 0;
        std::optional<Flag> waits;
        if (i > 0) {
            const Plan& before = plans.back();
            const int wait = wait_days(formulary.find(before.request.drug), rules);
            const Day earliest = before.steps.back().starts + days(wait);
            if (request.start < earliest)
                waits = Flag{"sequence-wait",
                             {{"drug", request.drug},
                              {"before", before.request.drug},
                              {"day", print_day(earliest)},
                              {"days", std::to_string(wait)}},
                             {}};
            request.start = std::max(request.start, earliest);
            now.start = left_after(before);
        }
        auto plan = plan_taper(request, now, rules, stop);
        if (!plan) {
            Faults faults;
            for (const Fault& fault : plan.faults()) faults.push_back(placed(fault, i));
            return faults;
        }
        if (waits) plan->flags.push_back(*std::move(waits));
        plans.push_back(*std::move(plan));
    }
    return plans;
}

}  // namespace evenfall
