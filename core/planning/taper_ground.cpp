// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/taper_ground.h"

#include <algorithm>

#include "planning/taper_check.h"

namespace evenfall::planning {

namespace {

Dose largest(const std::vector<DoseTime>& times) {
    Dose most;
    for (const DoseTime& dose : times) most = std::max(most, dose.amount);
    return most;
}

ShapeGrid shape_of(const PlanRequest& request, const std::vector<DoseTime>& times, const PieceTable& table) {
    ShapeInput input{request.shape, {}, 0, table.unit().ng(), {}};
    for (std::size_t i = 0; i < times.size(); ++i) {
        input.start_ng.push_back(times[i].amount.ng());
        if (request.first_dose_time == times[i].at) input.first = i;
    }
    input.makeable.assign(static_cast<std::size_t>(largest(times).ng() / table.unit().ng()) + 1, false);
    for (const Dose amount : table.makeable())
        input.makeable[static_cast<std::size_t>(amount.ng() / table.unit().ng())] = true;
    return ShapeGrid(std::move(input));
}

}  // namespace

Ground lay_ground(const PlanRequest& request, const TaperInput& input, std::span<const Product> products,
                  const Rules& rules) {
    std::vector<DoseTime> times = dose_times_of(input.start, request.drug);
    const Dose most = largest(times);
    // A little beyond the largest dose, so that a fault can name the nearest amount above it.
    Dose beyond = most;
    for (const Product& product : products) beyond = std::max(beyond, most + product.strength);
    const Faults unknown = check_request(request, input);
    Ground ground{
        std::move(times), PieceTable(products, request.drug, PieceWeights::from(rules), beyond), {}};
    if (unknown.empty() && ground.table.searchable() && !ground.table.unit().is_zero())
        ground.shape = shape_of(request, ground.times,
                                PieceTable(products, request.drug, PieceWeights::from(rules), most));
    return ground;
}

Amounts amounts_in(const std::vector<DoseTime>& times, const PieceTable& table) {
    Amounts amounts;
    for (const DoseTime& dose : times)
        amounts.push_back(static_cast<std::int32_t>(dose.amount.ng() / table.unit().ng()));
    return amounts;
}

std::vector<Dose> doses_in(const Amounts& amounts, const PieceTable& table) {
    std::vector<Dose> doses;
    for (const std::int32_t amount : amounts) doses.push_back(table.unit() * amount);
    return doses;
}

PathQuery query_for(const PlanRequest& request, const TaperInput& input, Amounts from,
                    const PieceTable& table, const Rules& rules) {
    PathQuery query;
    query.from = std::move(from);
    query.target = request.target;
    query.cap = request.cap;
    query.burden_weight = rules.number("path-weights", "burden");
    query.dose_time_weight = rules.number("path-weights", "dose_time");
    query.end_weight = rules.number("path-weights", "dose_time_ends");
    query.end_least = rules.number("path-weights", "dose_time_ends_least");
    query.half_life_h = input.slowest_half_life_h > 0 ? input.slowest_half_life_h
                                                      : rules.number("path-weights", "unknown_half_life_h");
    query.before =
        static_cast<std::int32_t>(daily_amount(input.start, request.drug).ng() / table.unit().ng());
    for (const DoseTime& dose : dose_times_of(input.start, request.drug)) {
        if (request.shape == Shape::dose_time_first && request.first_dose_time == dose.at)
            query.ends_freely = query.hours.size();
        query.hours.push_back(dose.at.minutes / 60.0);
    }
    if (const auto end = request.end_amount ? request.end_amount : request.last_dose)
        query.end = static_cast<std::int32_t>(end->ng() / table.unit().ng());
    return query;
}

std::vector<PlannedDose> planned_doses(const Ground& ground, const Regimen& start, const Amounts& amounts) {
    const auto day = ground.table.day_pieces(doses_in(amounts, ground.table)).value();
    std::vector<PlannedDose> doses;
    std::size_t i = 0;
    for (const DoseTime& dose : start.doses) {
        if (i >= ground.times.size() || dose.drug != ground.times[i].drug) {
            doses.push_back({dose.at, dose.drug, dose.amount, {}});
            continue;
        }
        if (amounts[i] > 0) doses.push_back({dose.at, dose.drug, ground.table.unit() * amounts[i], day[i]});
        ++i;
    }
    return doses;
}

}  // namespace evenfall::planning
