// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/average_band.h"

#include "kinetics/patients.h"
#include "kinetics/percentiles.h"
#include "kinetics/steady.h"

namespace evenfall::kinetics {
namespace {

/// One value for each patient at each instant, instant by instant.
class Values {
  public:
    Values(std::size_t patients, std::size_t instants) : patients_(patients), values_(patients * instants) {}

    void put(std::size_t patient, const std::vector<double>& averages) {
        for (std::size_t i = 0; i < averages.size(); ++i) values_[i * patients_ + patient] = averages[i];
    }
    std::span<const double> at(std::size_t instant) const {
        return {&values_[instant * patients_], patients_};
    }

  private:
    std::size_t patients_;
    std::vector<double> values_;
};

std::vector<double> averages_of(const EnsembleRequest& request, const EnsembleAgent& agent,
                                const Kinetics& constants) {
    const Model model = Model::make(constants, agent.drug).value();
    const Start start = steady_start(model, agent.before, request.start_clock_h, request.start_h);
    return relative_averages(model, start, agent.doses, request.grid);
}

Band band_of(const std::string& drug, const Values& values, std::size_t instants) {
    Band band{drug, {}, {}, {}};
    PercentileFinder finder;
    for (std::size_t i = 0; i < instants; ++i) {
        const Percentiles found = finder.find(values.at(i));
        band.p10.push_back(found.p10);
        band.p50.push_back(found.p50);
        band.p90.push_back(found.p90);
    }
    return band;
}

}  // namespace

Result<std::optional<Ensemble>> run_average_band(const EnsembleRequest& request, std::stop_token stop,
                                                 const Progress& progress) {
    if (Faults faults = faults_of(request); !faults.empty()) return faults;
    const auto patients = static_cast<std::size_t>(request.patients);
    std::vector<Values> values(request.agents.size(), Values(patients, request.grid.count));
    Draws draws(request.seed);
    for (std::size_t patient = 0; patient < patients; ++patient) {
        for (std::size_t a = 0; a < request.agents.size(); ++a) {
            if (stop.stop_requested()) return std::optional<Ensemble>();
            const EnsembleAgent& agent = request.agents[a];
            const Kinetics constants = drawn(agent.kinetics, request.absorption_factor, draws);
            values[a].put(patient, averages_of(request, agent, constants));
        }
        if (progress) progress(static_cast<double>(patient + 1) / static_cast<double>(patients));
    }
    Ensemble ensemble;
    for (std::size_t i = 0; i < request.grid.count; ++i) ensemble.times_h.push_back(request.grid.at(i));
    for (std::size_t a = 0; a < request.agents.size(); ++a)
        ensemble.bands.push_back(band_of(request.agents[a].drug, values[a], request.grid.count));
    return std::optional(std::move(ensemble));
}

}  // namespace evenfall::kinetics
