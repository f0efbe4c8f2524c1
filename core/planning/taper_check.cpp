// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/taper_check.h"

#include <algorithm>

#include "units/dose_text.h"

namespace evenfall::planning {

namespace {

bool inside(const Share& share) {
    return share > Share::percent(0) && share < Share::percent(100);
}

void check_shares(const PlanRequest& request, Faults& faults) {
    if (!inside(request.target))
        faults.push_back(
            {"plan-target-range", "plan.target_percent", {{"percent", print_percent(request.target)}}});
    if (!inside(request.cap))
        faults.push_back({"plan-cap-range", "plan.cap_percent", {{"percent", print_percent(request.cap)}}});
    if (inside(request.target) && inside(request.cap) && request.target > request.cap)
        faults.push_back({"plan-target-over-cap",
                          "plan.target_percent",
                          {{"target", print_percent(request.target)}, {"cap", print_percent(request.cap)}}});
}

void check_numbers(const PlanRequest& request, Faults& faults) {
    if (request.days_per_step < 1 || request.days_per_step > 365)
        faults.push_back(
            {"plan-days-range", "plan.days_per_step", {{"days", std::to_string(request.days_per_step)}}});
    if (request.commit_steps < 0 || request.commit_steps > 1000)
        faults.push_back(
            {"plan-commit-range", "plan.commit_steps", {{"steps", std::to_string(request.commit_steps)}}});
    if (request.end_amount && request.last_dose)
        faults.push_back({"plan-end-and-last", "plan.last_dose_mg", {}});
}

void check_dose_times(const Regimen& regimen, const std::string& drug, Faults& faults) {
    if (regimen.doses.size() > kMostDoseTimes)
        faults.push_back(
            {"plan-too-many-dose-times",
             "regimen",
             {{"count", std::to_string(regimen.doses.size())}, {"most", std::to_string(kMostDoseTimes)}}});
    const std::vector<DoseTime> times = dose_times_of(regimen, drug);
    for (std::size_t i = 0; i < regimen.doses.size(); ++i)
        if (regimen.doses[i].amount <= Dose())
            faults.push_back({"plan-dose-not-positive",
                              "regimen[" + std::to_string(i) + "].amount_mg",
                              {{"at", print_clock(regimen.doses[i].at)}}});
    for (std::size_t i = 1; i < times.size(); ++i) {
        if (times[i].at == times[i - 1].at)
            faults.push_back(
                {"plan-dose-time-twice", "regimen", {{"at", print_clock(times[i].at)}, {"drug", drug}}});
        if (times[i].at < times[i - 1].at)
            faults.push_back({"plan-dose-times-order",
                              "regimen",
                              {{"at", print_clock(times[i].at)}, {"after", print_clock(times[i - 1].at)}}});
    }
}

void check_drug(const PlanRequest& request, const Regimen& regimen, Faults& faults) {
    if (request.drug.empty()) {
        faults.push_back({"plan-no-drug", "plan.drug", {}});
    } else if (regimen.doses.empty()) {
        faults.push_back({"plan-no-doses", "regimen", {}});
    } else if (dose_times_of(regimen, request.drug).empty()) {
        std::string taken;
        for (const std::string& agent : agents_of(regimen)) taken += (taken.empty() ? "" : ", ") + agent;
        faults.push_back(
            {"plan-drug-not-in-regimen", "plan.drug", {{"drug", request.drug}, {"taken", taken}}});
    }
}

void check_first(const PlanRequest& request, const std::vector<DoseTime>& times, Faults& faults) {
    if (request.shape != Shape::dose_time_first) return;
    std::string found;
    for (const DoseTime& dose : times) {
        if (request.first_dose_time == dose.at) return;
        found += (found.empty() ? "" : ", ") + print_clock(dose.at);
    }
    const std::string at = request.first_dose_time ? print_clock(*request.first_dose_time) : "-";
    faults.push_back({"plan-first-dose-time", "plan.shape", {{"at", at}, {"found", found}}});
}

void check_below(const std::optional<Dose>& amount, const std::string& what, Dose start, Faults& faults) {
    if (amount && (*amount <= Dose() || *amount >= start))
        faults.push_back({"plan-" + what + "-not-below",
                          what == "end" ? "plan.end" : "plan.last_dose_mg",
                          {{"amount", print_dose(*amount)}, {"start", print_dose(start)}}});
}

std::string nearest_words(const PieceTable& table, Dose amount) {
    const auto [below, above] = table.nearest(amount);
    std::string words = below ? print_dose(*below) : "";
    if (above) words += (words.empty() ? "" : ", ") + print_dose(*above);
    return words;
}

// The grid that the amounts ask for, said as the piece that would make them: their greatest common part.
Dose piece_needed(const std::vector<DoseTime>& times, const PieceTable& table) {
    std::int64_t grid = table.unit().ng();
    for (const DoseTime& dose : times) {
        std::int64_t a = grid, b = dose.amount.ng();
        while (b != 0) std::swap(a %= b, b);
        grid = a;
    }
    return Dose::nanograms(grid);
}

}  // namespace

std::vector<DoseTime> dose_times_of(const Regimen& regimen, const std::string& drug) {
    std::vector<DoseTime> times;
    for (const DoseTime& dose : regimen.doses)
        if (dose.drug == drug) times.push_back(dose);
    return times;
}

Faults check_request(const PlanRequest& request, const TaperInput& input) {
    Faults faults;
    check_drug(request, input.start, faults);
    check_shares(request, faults);
    check_numbers(request, faults);
    check_dose_times(input.start, request.drug, faults);
    check_first(request, dose_times_of(input.start, request.drug), faults);
    const Dose start = daily_amount(input.start, request.drug);
    check_below(request.end_amount, "end", start, faults);
    check_below(request.last_dose, "last", start, faults);
    return faults;
}

namespace {

// Daily totals beyond this are more than a laptop should go through pair by pair.
constexpr std::int64_t kMostTotals = 1 << 16;

std::optional<Fault> limit_met(const PlanRequest& request, const TaperInput& input, const PieceTable& table) {
    const std::string count = std::to_string(table.products().size());
    const Fault too_fine{"plan-grid-too-fine", "products", {{"unit", print_dose(table.unit())}}};
    switch (table.limit()) {
        case PieceTable::Limit::products:
            return Fault{"plan-too-many-products", "products", {{"most", std::to_string(kMostProducts)}}};
        case PieceTable::Limit::grid:
            return too_fine;
        case PieceTable::Limit::memory:
            return Fault{
                "plan-too-many-pieces", "products", {{"count", count}, {"unit", print_dose(table.unit())}}};
        case PieceTable::Limit::none:
            break;
    }
    const Dose daily = daily_amount(input.start, request.drug);
    const bool huge = !table.unit().is_zero() && daily.ng() / table.unit().ng() > kMostTotals;
    return huge ? std::optional(too_fine) : std::nullopt;
}

}  // namespace

Faults check_products(const PlanRequest& request, const TaperInput& input, const PieceTable& table) {
    if (table.products().empty()) return {{"plan-no-product", "products", {{"drug", request.drug}}}};
    if (const auto fault = limit_met(request, input, table)) return {*fault};
    Faults faults;
    const std::vector<DoseTime> times = dose_times_of(input.start, request.drug);
    for (const DoseTime& dose : times)
        if (!table.makes(dose.amount))
            faults.push_back({"plan-start-not-makeable",
                              "regimen",
                              {{"amount", print_dose(dose.amount)},
                               {"at", print_clock(dose.at)},
                               {"nearest", nearest_words(table, dose.amount)},
                               {"piece", print_dose(piece_needed(times, table))}}});
    return faults;
}

}  // namespace evenfall::planning
