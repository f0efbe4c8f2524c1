// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/steps.h"

#include <algorithm>
#include <set>

#include "casework/course.h"
#include "papers/papers.h"

namespace evenfall::papers {
namespace {

std::map<DoseKey, Dose> doses_of_regimen(const Regimen& regimen) {
    std::map<DoseKey, Dose> doses;
    for (const DoseTime& dose : regimen.doses) doses[{dose.at, dose.drug}] += dose.amount;
    return doses;
}

std::map<DoseKey, Dose> doses_of_step(const Step& step) {
    std::map<DoseKey, Dose> doses;
    for (const PlannedDose& dose : step.doses) doses[{dose.at, dose.drug}] += dose.amount;
    return doses;
}

std::map<DoseKey, std::vector<Piece>> pieces_of_step(const Step& step) {
    std::map<DoseKey, std::vector<Piece>> pieces;
    for (const PlannedDose& dose : step.doses) pieces[{dose.at, dose.drug}] = dose.pieces;
    return pieces;
}

std::set<Product> products_of(const std::vector<Piece>& pieces) {
    std::set<Product> products;
    for (const Piece& piece : pieces) products.insert(piece.product);
    return products;
}

/// The last day of a step by its plan. A dose that stays has no last day: it is shown for one fill at a time.
Day last_day(const Step& step, const PaperSource& source) {
    if (step.days) return step.starts + std::chrono::days(*step.days - 1);
    if (step.doses.empty()) return step.starts;
    return std::max(step.starts, source.as_of) + std::chrono::days(source.clinic.days_per_fill - 1);
}

}  // namespace

bool is_before_plan(const FirmStep& step) {
    return step.step->number == 0;
}

std::vector<FirmStep> firm_steps(const PaperSource& source) {
    std::vector<FirmStep> firm;
    if (!source.plan) return firm;
    auto before = doses_of_regimen(source.plan->start);
    std::map<DoseKey, std::vector<Piece>> pieces_before;
    for (const Step& step : source.plan->steps) {
        if (step.status != StepStatus::committed) break;
        if (is_kept_back(step, source.hold)) break;
        FirmStep shown{&step, step.starts, last_day(step, source), false, before, pieces_before};
        before = doses_of_step(step);
        pieces_before = pieces_of_step(step);
        firm.push_back(std::move(shown));
    }
    if (source.hold && !firm.empty()) {
        FirmStep& held = firm.back();
        held.held = held.last < source.hold->review_on;
        held.last = std::max(held.last, source.hold->review_on);
    }
    const auto past = [&](const FirmStep& step) {
        return step.last < source.as_of && !(step.step->doses.empty() && &step == &firm.back());
    };
    firm.erase(firm.begin(), std::find_if_not(firm.begin(), firm.end(), past));
    return firm;
}

Regimen regimen_of(const std::vector<PlannedDose>& doses) {
    Regimen regimen;
    for (const PlannedDose& dose : doses) regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
    return regimen;
}

std::vector<ClockTime> dose_times(const std::vector<FirmStep>& steps) {
    std::set<ClockTime> times;
    for (const FirmStep& step : steps)
        for (const PlannedDose& dose : step.step->doses) times.insert(dose.at);
    return {times.begin(), times.end()};
}

std::vector<const PlannedDose*> doses_at(const Step& step, ClockTime at) {
    std::vector<const PlannedDose*> doses;
    for (const PlannedDose& dose : step.doses)
        if (dose.at == at) doses.push_back(&dose);
    return doses;
}

std::vector<ChangedDose> changes_of(const FirmStep& step) {
    const auto now = doses_of_step(*step.step);
    const auto pieces_now = pieces_of_step(*step.step);
    const auto pieces = [](const auto& of, const DoseKey& key) {
        const auto found = of.find(key);
        return found == of.end() ? std::vector<Piece>{} : found->second;
    };
    std::vector<ChangedDose> changes;
    const auto add = [&](const DoseKey& key, Dose was, Dose is) {
        changes.push_back(
            {key.first, key.second, was, is, pieces(step.pieces_before, key), pieces(pieces_now, key)});
    };
    for (const auto& [key, was] : step.before) {
        const auto found = now.find(key);
        const Dose is = found == now.end() ? Dose() : found->second;
        if (is != was) add(key, was, is);
    }
    for (const auto& [key, is] : now)
        if (!step.before.contains(key)) add(key, Dose(), is);
    std::stable_sort(changes.begin(), changes.end(),
                     [](const ChangedDose& a, const ChangedDose& b) { return a.at < b.at; });
    return changes;
}

Remade remade(const FirmStep& step, const PlannedDose& dose) {
    const auto amount = step.before.find({dose.at, dose.drug});
    const auto pieces = step.pieces_before.find({dose.at, dose.drug});
    if (amount == step.before.end() || amount->second != dose.amount) return Remade::no;
    if (pieces == step.pieces_before.end() || pieces->second.empty() || dose.pieces.empty())
        return Remade::no;
    if (pieces->second == dose.pieces) return Remade::no;
    return products_of(pieces->second) == products_of(dose.pieces) ? Remade::other_cuts
                                                                   : Remade::other_products;
}

std::optional<Day> valid_through(const PaperSource& source) {
    const auto steps = firm_steps(source);
    const auto last = std::find_if(steps.rbegin(), steps.rend(),
                                   [](const FirmStep& step) { return !step.step->doses.empty(); });
    return last == steps.rend() ? std::nullopt : std::optional(last->last);
}

}  // namespace evenfall::papers
