// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/day_levels.h"

#include <algorithm>
#include <cmath>

#include "diary/statistics.h"
#include "kinetics/steady.h"

namespace evenfall::stabilization {

namespace {

constexpr double kStep = 0.5;           // hours between two points of the band
constexpr std::size_t kPoints = 49;     // 0 to 24 h
constexpr double kFineStep = 1.0 / 12;  // where the peak of several agents together is looked for

LevelShape shape_of(double peak, double trough, double average, double reference) {
    LevelShape shape;
    if (reference <= 0 || average <= 0) return shape;
    shape.peak = 100 * peak / reference;
    shape.trough = 100 * trough / reference;
    shape.average = 100 * average / reference;
    shape.fluctuation = (peak - trough) / average;
    return shape;
}

/// The doses of a regimen with hours counted from the diary day's beginning.
std::vector<kinetics::DailyDose> doses_from(const Regimen& regimen, const std::string& drug,
                                            ClockTime begins) {
    std::vector<kinetics::DailyDose> doses;
    for (const DoseTime& dose : regimen.doses)
        if (dose.drug == drug) doses.push_back({minutes_into_day(dose.at, begins) / 60.0, dose.amount.mg()});
    std::sort(doses.begin(), doses.end());
    return doses;
}

std::vector<double> steady_curve(const std::vector<AgentModel>& agents, const Regimen& regimen,
                                 ClockTime begins, double step) {
    std::vector<double> sum(static_cast<std::size_t>(std::lround(24 / step)) + 1, 0.0);
    for (const AgentModel& agent : agents) {
        const auto doses = doses_from(regimen, agent.model.drug(), begins);
        if (doses.empty()) continue;
        const auto curve = kinetics::day_curve(agent.model, doses, step);
        for (std::size_t i = 0; i < std::min(sum.size(), curve.size()); ++i)
            sum[i] += agent.factor * curve[i];
    }
    return sum;
}

/// What was taken of an agent, in hours from the first row's beginning; on unknown days, and for a likely
/// slip, what was intended.
std::vector<kinetics::TimedDose> taken_doses(const Context& context, const Dosing& dosing,
                                             const std::string& drug, LocalTime origin) {
    std::vector<kinetics::TimedDose> doses;
    const auto add = [&](LocalTime at, Dose amount) {
        doses.push_back({kinetics::hours_between(origin, at, context.zone), amount.mg()});
    };
    for (const DayRow& row : dosing.rows) {
        for (const RowEntry& entry : row.entries) {
            const Intake& intake = context.intake(entry.intake);
            if (intake.drug != drug) continue;
            if (counts(entry)) add(intake.taken_at, intake.amount);
            if (entry.match == EntryMatch::slip && entry.intended)
                add(intake.taken_at, row.intended[*entry.intended].amount);
        }
        if (row.known != DayKnown::unknown) continue;
        for (const DoseTime& dose : row.intended)
            if (dose.drug == drug) add(time_in_diary_day(row.day, dose.at, context.begins), dose.amount);
    }
    return doses;
}

/// The state before the diary: the first regimen at steady state; without one the diary's own mean amount,
/// once a day.
kinetics::Start start_of(const Context& context, const Dosing& dosing, const AgentModel& agent,
                         const std::vector<kinetics::TimedDose>& taken) {
    if (!dosing.held_against.empty())
        return kinetics::steady_start(
            agent.model, doses_from(dosing.held_against.front().regimen, agent.model.drug(), context.begins));
    double sum = 0;
    for (const auto& dose : taken) sum += dose.mg;
    return kinetics::steady_start(agent.model, {{12, sum / static_cast<double>(dosing.rows.size())}});
}

std::vector<double> taken_curve(const Context& context, const Dosing& dosing,
                                const std::vector<AgentModel>& agents, LocalTime origin, std::size_t count) {
    std::vector<double> sum(count, 0.0);
    for (const AgentModel& agent : agents) {
        const auto taken = taken_doses(context, dosing, agent.model.drug(), origin);
        const auto levels = kinetics::relative_levels(agent.model, start_of(context, dosing, agent, taken),
                                                      taken, {0, kStep, count});
        for (std::size_t i = 0; i < count; ++i) sum[i] += agent.factor * levels[i];
    }
    return sum;
}

/// The judged days' stretches of the curve, each of kPoints.
std::vector<std::vector<double>> day_stretches(const Context& context, const Dosing& dosing,
                                               const std::vector<AgentModel>& agents) {
    const LocalTime origin = at_clock(dosing.rows.front().day, context.begins);
    const auto first_point = [&](const DayRow& row) {
        const double hours = kinetics::hours_between(origin, at_clock(row.day, context.begins), context.zone);
        return static_cast<std::size_t>(std::lround(hours / kStep));
    };
    const auto curve =
        taken_curve(context, dosing, agents, origin, first_point(dosing.rows.back()) + kPoints);
    std::vector<std::vector<double>> days;
    for (const DayRow& row : dosing.rows) {
        if (!row.judged) continue;
        const auto from = curve.begin() + static_cast<std::ptrdiff_t>(first_point(row));
        days.emplace_back(from, from + kPoints);
    }
    return days;
}

LevelShape median_shape(const std::vector<std::vector<double>>& days, double reference) {
    std::vector<double> peaks, troughs, averages;
    for (const auto& day : days) {
        peaks.push_back(*std::max_element(day.begin(), day.end()));
        troughs.push_back(*std::min_element(day.begin(), day.end()));
        averages.push_back(mean(day));
    }
    return shape_of(percentile(peaks, 0.5), percentile(troughs, 0.5), percentile(averages, 0.5), reference);
}

void add_percentiles(LevelBand& band, const std::vector<std::vector<double>>& days, double reference) {
    for (std::size_t i = 0; i < kPoints; ++i) {
        std::vector<double> values;
        values.reserve(days.size());
        for (const auto& day : days) values.push_back(100 * day[i] / reference);
        band.low.push_back(percentile(values, 0.1));
        band.middle.push_back(percentile(values, 0.5));
        band.high.push_back(percentile(values, 0.9));
    }
}

}  // namespace

std::vector<AgentModel> models_of(const Formulary& formulary, const std::map<std::string, double>& factors,
                                  std::vector<std::string>& not_modelled) {
    std::vector<AgentModel> models;
    for (const auto& [name, factor] : factors) {
        const Drug* drug = formulary.find(name);
        if (drug != nullptr) {
            if (auto model = kinetics::Model::make(drug->kinetics, name); model.ok()) {
                models.push_back({std::move(model).value(), factor});
                continue;
            }
        }
        not_modelled.push_back(name);
    }
    return models;
}

double steady_average(const std::vector<AgentModel>& agents, const Regimen& regimen) {
    double sum = 0;
    for (const AgentModel& agent : agents)
        sum += agent.factor * daily_amount(regimen, agent.model.drug()).mg();
    return sum;
}

LevelShape steady_shape(const std::vector<AgentModel>& agents, const Regimen& regimen, double reference,
                        const Rules& rules) {
    std::vector<const AgentModel*> taken;
    for (const AgentModel& agent : agents)
        if (!daily_amount(regimen, agent.model.drug()).is_zero()) taken.push_back(&agent);
    if (taken.size() == 1) {
        const AgentModel& agent = *taken.front();
        const auto profile =
            kinetics::day_profile(agent.model, kinetics::daily_doses(regimen, agent.model.drug()),
                                  rules.number("level-low", "percent") / 100);
        return shape_of(agent.factor * profile.peak, agent.factor * profile.trough,
                        agent.factor * profile.average, reference);
    }
    const auto curve = steady_curve(agents, regimen, {0}, kFineStep);
    return shape_of(*std::max_element(curve.begin(), curve.end()),
                    *std::min_element(curve.begin(), curve.end()), steady_average(agents, regimen),
                    reference);
}

LevelBand level_band(const Context& context, const Dosing& dosing, const Measures& measures) {
    LevelBand band;
    const auto agents = models_of(context.formulary, dosing.factor, band.not_modelled);
    if (dosing.rows.empty() || agents.empty()) return band;
    for (std::size_t i = 0; i < kPoints; ++i) band.hours.push_back(static_cast<double>(i) * kStep);
    double reference = measures.mean_total;
    if (const Regimen* regimen = regimen_on(dosing.held_against, day_of(context.input.as_of))) {
        reference = steady_average(agents, *regimen);
        if (reference <= 0) return band;
        band.as_intended = steady_shape(agents, *regimen, reference, context.rules);
        for (const double level : steady_curve(agents, *regimen, context.begins, kStep))
            band.intended.push_back(100 * level / reference);
    }
    const auto days = day_stretches(context, dosing, agents);
    if (days.empty() || reference <= 0) return band;
    add_percentiles(band, days, reference);
    band.as_taken = median_shape(days, reference);
    return band;
}

}  // namespace evenfall::stabilization
