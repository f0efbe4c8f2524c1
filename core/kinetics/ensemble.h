// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "kinetics/levels.h"

namespace evenfall::kinetics {

/// What an ensemble is run on, for one agent.
struct EnsembleAgent {
    std::string drug;
    Kinetics kinetics;
    std::optional<Equivalence> equivalence;  ///< needed for `Scale::equivalent`
    std::vector<DailyDose> before;  ///< steady state of these before the start; empty: nothing in the body
    std::vector<TimedDose> doses;
};

/// What is read: amounts of every column, the relative level of every agent, or the diazepam-equivalent level
/// of all agents together (mg/day).
enum class Scale { amounts, relative, equivalent };

/// Which virtual patients, and where they are read.
struct EnsembleRequest {
    std::vector<EnsembleAgent> agents;
    Scale scale = Scale::relative;
    double start_h = 0;            ///< where the state begins (steady or empty)
    double start_clock_h = 0;      ///< the hour of the day then, for `before`
    Grid grid;                     ///< REQUIRES grid.first_h >= start_h
    std::size_t read_every = 1;    ///< percentiles at every n-th instant of the grid
    int patients = 200;            ///< rule `level-spread`; at most 10 000
    double absorption_factor = 1;  ///< absorption half-lives spread from ÷ to × this; 1: not at all
    std::uint64_t seed = 1;
};

/// Percentiles over the virtual patients at each instant read.
struct Band {
    std::string column;  ///< the column, the agent, or "diazepam-equivalent"
    std::vector<double> p10, p50, p90;

    bool operator==(const Band&) const = default;
};

struct Ensemble {
    std::vector<double> times_h;
    std::vector<Band> bands;

    bool operator==(const Ensemble&) const = default;
};

/// Called now and then with the share done, 0 to 1, on the thread that computes.
using Progress = std::function<void(double)>;

/// Runs the virtual patients. Each draws the half-life of the parent and of every metabolite, the absorption
/// half-life and the equivalence from a log-normal whose median is the middle value and whose 2.5th
/// and 97.5th percentiles are the ends of the published range (each side with its own spread), truncated to
/// the range; the relative level of each is scaled to that patient's own area. Same seed, same result, on
/// every build variant; the first n of N patients are the same whatever N. Memory is linear in the patients,
/// not in patients × instants. Empty where `stop` was asked for. Faults: those of `Model::make`,
/// `ensemble-size` (patients below 1 or above 10 000), `ensemble-equivalence`.
Result<std::optional<Ensemble>> run_ensemble(const EnsembleRequest& request, std::stop_token stop = {},
                                             const Progress& progress = {});

}  // namespace evenfall::kinetics
