// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <set>

#include "exchange/answers.h"
#include "kinetics/ensemble.h"
#include "kinetics/steady.h"

namespace evenfall::answers {
namespace {

using namespace kinetics;
using std::chrono::days;

/// One agent's dosing, in real hours from the first instant asked for.
struct Dosing {
    const Drug* drug = nullptr;
    std::vector<DailyDose> before;  ///< steady state of these; empty: nothing in the body
    std::vector<TimedDose> doses;
    double reference_mg = 0;      ///< mg a day that is 100 %
    std::size_t before_from = 0;  ///< doses left out because they lie before the first instant
};

/// Where the doses come from, and over which hours they are looked at.
struct Asked {
    const Basis& basis;
    const LevelsAsked& levels;
    double hours = 0;
};

Result<std::vector<DatedRegimen>> dated(const Asked& asked) {
    const Case& given = asked.basis.given;
    if (asked.levels.doses == LevelDoses::regimen) {
        if (!given.regimen) return needs("regimen");
        return std::vector<DatedRegimen>{{day_of(asked.levels.from), *given.regimen}};
    }
    auto plan = plan_of(asked.basis);
    if (!plan) return plan.faults();
    std::vector<DatedRegimen> regimens{
        {std::min(day_of(asked.levels.from), plan->request.start - days(1)), plan->start}};
    for (const Step& step : plan->steps) {
        DatedRegimen entry{step.starts, {}};
        for (const PlannedDose& dose : step.doses)
            entry.regimen.doses.push_back({dose.at, dose.drug, dose.amount, {}, {}});
        regimens.push_back(std::move(entry));
    }
    return regimens;
}

/// The agents of a dosing, in the order in which they are first met.
std::vector<std::string> agents_of_intake(const std::vector<Intake>& intake) {
    std::vector<std::string> agents;
    for (const Intake& entry : intake)
        if (std::ranges::find(agents, entry.drug) == agents.end()) agents.push_back(entry.drug);
    return agents;
}

double mean_daily_mg(const std::vector<TimedDose>& doses) {
    if (doses.empty()) return 0;
    double total = 0;
    for (const TimedDose& dose : doses) total += dose.mg;
    return total * 24 / std::max(24.0, doses.back().time_h - doses.front().time_h + 24.0);
}

Result<std::vector<Dosing>> dosings(const Asked& asked) {
    const Case& given = asked.basis.given;
    const LocalTime origin = asked.levels.from;
    std::vector<std::string> agents;
    std::vector<DatedRegimen> regimens;
    const std::vector<Intake>* intake = nullptr;
    if (asked.levels.doses == LevelDoses::intake) {
        if (!given.diary) return needs("diary");
        intake = &given.diary->intake;
        agents = agents_of_intake(*intake);
    } else if (asked.levels.doses == LevelDoses::listed) {
        intake = &asked.levels.listed;
        agents = agents_of_intake(*intake);
    } else {
        auto read = dated(asked);
        if (!read) return read.faults();
        regimens = std::move(*read);
        for (const auto& entry : regimens)
            for (const auto& agent : agents_of(entry.regimen))
                if (std::ranges::find(agents, agent) == agents.end()) agents.push_back(agent);
    }
    const bool steady = asked.levels.start == LevelStart::steady_state;
    if (steady && !given.regimen) return needs("regimen");
    if (steady)
        for (const auto& agent : agents_of(*given.regimen))
            if (std::ranges::find(agents, agent) == agents.end()) agents.push_back(agent);
    std::vector<Dosing> all;
    for (const auto& agent : agents) {
        Dosing dosing;
        dosing.drug = asked.basis.formulary.find(agent);
        if (!dosing.drug) return Fault{"drug-unknown", agent, {{"text", agent}}};
        if (steady) dosing.before = daily_doses(*given.regimen, agent);
        dosing.doses = intake ? timed_doses(*intake, agent, origin, given.zone)
                              : timed_doses(regimens, agent, day_of(origin),
                                            day_of(asked.levels.to) + days(1), origin, given.zone);
        dosing.before_from =
            std::erase_if(dosing.doses, [](const TimedDose& dose) { return dose.time_h < 0; });
        dosing.reference_mg =
            given.regimen ? daily_amount(*given.regimen, agent).mg() : mean_daily_mg(dosing.doses);
        all.push_back(std::move(dosing));
    }
    return all;
}

/// Twelve significant digits, as a number.
Answered number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.12g", value);
    return std::strtod(text, nullptr);
}

struct Column {
    std::string name;
    std::vector<double> values;
};

/// The instants asked for: every so many minutes, and the last one.
std::vector<double> instants(const Asked& asked) {
    const double step = asked.levels.every_minutes / 60;
    const auto count = static_cast<std::size_t>(std::floor(asked.hours / step + 1e-9)) + 1;
    std::vector<double> times(count);
    for (std::size_t i = 0; i < count; ++i) times[i] = static_cast<double>(i) * step;
    if (asked.hours - times.back() > 1e-9) times.push_back(asked.hours);
    return times;
}

Grid regular(const Asked& asked, const std::vector<double>& times) {
    const double step = asked.levels.every_minutes / 60;
    const bool odd_end = times.size() > 1 && times.back() - times[times.size() - 2] < step - 1e-9;
    return {0, step, times.size() - (odd_end ? 1 : 0)};
}

/// What a relative level is multiplied by. REQUIRES an equivalence where one is asked for.
double scale_of(const Asked& asked, const Dosing& dosing) {
    if (asked.levels.as == LevelAs::equivalent) return diazepam_per_mg(dosing.drug->equivalence->usual);
    return dosing.reference_mg > 0 ? 100 / dosing.reference_mg : 0;
}

Result<std::vector<Column>> columns_of(const Asked& asked, const Dosing& dosing,
                                       const std::vector<double>& times) {
    auto model = Model::make(dosing.drug->kinetics, dosing.drug->name, "kinetics." + dosing.drug->name);
    if (!model) return model.faults();
    const ClockTime clock = clock_of(asked.levels.from);
    const Start start =
        dosing.before.empty() ? Start{} : steady_start(*model, dosing.before, clock.minutes / 60.0, 0);
    const Grid grid = regular(asked, times);
    Levels computed = kinetics::levels(*model, start, dosing.doses, grid);
    if (grid.count < times.size()) {
        const Levels last = kinetics::levels(*model, start, dosing.doses, {times.back(), 1, 1});
        for (std::size_t i = 0; i < computed.values.size(); ++i)
            computed.values[i].push_back(last.values[i].front());
        computed.grid.count = times.size();
    }
    std::vector<Column> columns;
    if (asked.levels.as == LevelAs::amounts) {
        for (std::size_t i = 0; i < computed.columns.size(); ++i)
            columns.push_back({computed.columns[i], std::move(computed.values[i])});
        return columns;
    }
    std::vector<double> relative = relative_levels(*model, computed);
    for (double& value : relative) value *= scale_of(asked, dosing);
    columns.push_back({dosing.drug->name, std::move(relative)});
    return columns;
}

EnsembleRequest ensemble_of(const Asked& asked, const std::vector<Dosing>& all) {
    EnsembleRequest request;
    request.patients = asked.levels.spread;
    request.absorption_factor = asked.basis.rules.number("level-spread", "absorption_factor");
    request.scale = asked.levels.as == LevelAs::amounts    ? Scale::amounts
                    : asked.levels.as == LevelAs::relative ? Scale::relative
                                                           : Scale::equivalent;
    request.start_clock_h = clock_of(asked.levels.from).minutes / 60.0;
    for (const Dosing& dosing : all)
        request.agents.push_back({dosing.drug->name, dosing.drug->kinetics, dosing.drug->equivalence,
                                  dosing.before, dosing.doses});
    return request;
}

/// Reads the last instant, which lies within a step, with the same virtual patients: a grid moved so that it
/// ends there.
Result<Done> add_odd_end(EnsembleRequest request, const std::vector<double>& times,
                         std::vector<Band>& bands) {
    const std::size_t steps = times.size() - 2;
    request.grid.first_h = times.back() - static_cast<double>(steps) * request.grid.step_h;
    request.read_every = std::max<std::size_t>(1, steps);
    auto ran = run_ensemble(request);
    if (!ran) return ran.faults();
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const Band& last = (*ran)->bands[i];
        bands[i].p10.push_back(last.p10.back());
        bands[i].p50.push_back(last.p50.back());
        bands[i].p90.push_back(last.p90.back());
    }
    return Done{};
}

/// The percentiles of the virtual patients, for a case that asks for spread.
Result<std::vector<Column>> spread_of(const Asked& asked, const std::vector<Dosing>& all,
                                      const std::vector<double>& times) {
    EnsembleRequest request = ensemble_of(asked, all);
    request.grid = regular(asked, times);
    auto ran = run_ensemble(request);
    if (!ran) return ran.faults();
    std::vector<Band> bands = std::move((*ran)->bands);
    if (request.grid.count < times.size())
        if (const auto ended = add_odd_end(request, times, bands); !ended) return ended.faults();
    std::vector<Column> columns;
    for (Band& band : bands) {
        double scale = 1;
        if (asked.levels.as == LevelAs::relative)
            for (const Dosing& dosing : all)
                if (dosing.drug->name == band.column) scale = scale_of(asked, dosing);
        for (auto& [name, values] :
             {std::pair{" p10", &band.p10}, {" p50", &band.p50}, {" p90", &band.p90}}) {
            for (double& value : *values) value *= scale;
            columns.push_back({band.column + name, std::move(*values)});
        }
    }
    return columns;
}

Faults without_equivalence(const LevelsAsked& asked, const std::vector<Dosing>& all) {
    Faults faults;
    for (const Dosing& dosing : all)
        if (asked.as == LevelAs::equivalent && !dosing.drug->equivalence)
            faults.push_back({"ensemble-equivalence", "levels.as", {{"drug", dosing.drug->name}}});
    return faults;
}

/// Says that doses before the first instant are not counted, where there are any and the body begins empty.
void add_left_out(Answered& answer, const Asked& asked, const std::vector<Dosing>& all) {
    std::size_t count = 0;
    for (const Dosing& dosing : all) count += dosing.before_from;
    if (count == 0 || asked.levels.start != LevelStart::empty) return;
    answer["flags"] =
        flags({{"levels-empty-start", {{"count", std::to_string(count)}}, {}}}, asked.basis.rules);
}

}  // namespace

Result<Answered> levels(const Basis& basis) {
    if (!basis.given.levels) return needs("levels");
    const LevelsAsked& wanted = *basis.given.levels;
    const Asked asked{basis, wanted, hours_between(wanted.from, wanted.to, basis.given.zone)};
    auto all = dosings(asked);
    if (!all) return all.faults();
    if (Faults faults = without_equivalence(wanted, *all); !faults.empty()) return faults;
    const std::vector<double> times = instants(asked);
    std::vector<Column> columns;
    for (const Dosing& dosing : *all) {
        auto read = columns_of(asked, dosing, times);
        if (!read) return read.faults();
        for (Column& column : *read) columns.push_back(std::move(column));
    }
    if (wanted.as == LevelAs::equivalent && columns.size() > 1) {
        Column total{"all agents", std::vector<double>(times.size(), 0)};
        for (const Column& column : columns)
            for (std::size_t i = 0; i < times.size(); ++i) total.values[i] += column.values[i];
        columns.push_back(std::move(total));
    }
    if (wanted.spread > 0) {
        auto spread = spread_of(asked, *all, times);
        if (!spread) return spread.faults();
        for (Column& column : *spread) columns.push_back(std::move(column));
    }
    Answered names = Answered::array({"time_h"});
    for (const Column& column : columns) names.push_back(column.name);
    Answered rows = Answered::array();
    for (std::size_t i = 0; i < times.size(); ++i) {
        Answered row = Answered::array({number(times[i])});
        for (const Column& column : columns)
            row.push_back(i < column.values.size() ? number(column.values[i]) : Answered(nullptr));
        rows.push_back(std::move(row));
    }
    Answered answer = {{"columns", std::move(names)}, {"rows", std::move(rows)}};
    add_left_out(answer, asked, *all);
    add_overrides(answer, basis);
    return answer;
}

}  // namespace evenfall::answers
