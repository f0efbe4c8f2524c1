// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/ensemble.h"

#include <algorithm>

#include "kinetics/average_band.h"
#include "kinetics/patients.h"
#include "kinetics/percentiles.h"
#include "kinetics/propagate.h"

namespace evenfall::kinetics {
namespace {

constexpr int kMostPatients = 10'000;
// Instants between two reports; the values of all patients are kept for so many instants only.
constexpr std::size_t kReadsAtOnce = 64;

/// One step of 64 patients.
template <std::size_t N, bool Exchanges>
inline void step_block(Block& block) {
    for (std::size_t p = 0; p < kBlock; ++p) {
        std::array<double, N> x{}, next{};
#pragma GCC unroll 8
        for (std::size_t i = 0; i < N; ++i) x[i] = block.state[i][p];
#pragma GCC unroll 8
        for (std::size_t i = 0; i < N; ++i) {
            double sum = 0;
#pragma GCC unroll 8
            for (std::size_t j = 0; j < i; ++j) sum += block.matrix[i * N + j][p] * x[j];
            if constexpr (Exchanges)
                if (i == 1) sum += block.matrix[N + 2][p] * x[2];
            next[i] = sum + block.matrix[i * N + i][p] * x[i];
        }
#pragma GCC unroll 8
        for (std::size_t i = 0; i < N; ++i) block.state[i][p] = next[i];
    }
}

void take_dose(const Chain& shape, const Arrival& dose, int remainder, Block& block) {
    if (remainder < 0) {
        for (double& depot : block.state[0]) depot += dose.mg;
        return;
    }
    const Lane* response = &block.responses[static_cast<std::size_t>(remainder) * shape.size];
    for (std::size_t i = 0; i < shape.size; ++i)
        for (std::size_t p = 0; p < kBlock; ++p) block.state[i][p] += response[i][p] * dose.mg;
}

/// What is read of each patient at some instants: rows of `patients` values, output by output.
class Readings {
  public:
    Readings(std::size_t outputs, std::size_t patients)
        : patients_(patients), values_(outputs * kReadsAtOnce * patients) {}

    void clear() { std::fill(values_.begin(), values_.end(), 0.0); }
    double* row(std::size_t output, std::size_t read) {
        return &values_[(output * kReadsAtOnce + read) * patients_];
    }
    std::size_t patients() const { return patients_; }

  private:
    std::size_t patients_;
    std::vector<double> values_;
};

/// One run: draws all patients, then goes through the instants, a few at a time, block by block.
class Run {
  public:
    Run(const EnsembleRequest& request, std::stop_token stop, const Progress& progress)
        : request_(request), stop_(std::move(stop)), progress_(progress) {}

    std::optional<Ensemble> result() {
        if (!draw()) return std::nullopt;
        name_bands();
        Readings readings(ensemble_.bands.size(), static_cast<std::size_t>(request_.patients));
        const std::size_t steps_at_once = kReadsAtOnce * request_.read_every;
        for (std::size_t from = 0; from < request_.grid.count; from += steps_at_once) {
            const std::size_t to = std::min(from + steps_at_once, request_.grid.count);
            if (!advance(from, to, readings)) return std::nullopt;
            summarise(from, to, readings);
            report(0.2 + 0.8 * static_cast<double>(to) / static_cast<double>(request_.grid.count));
        }
        return std::move(ensemble_);
    }

  private:
    void report(double share) const {
        if (progress_) progress_(share);
    }

    bool draw() {
        for (const EnsembleAgent& agent : request_.agents)
            agents_.push_back(without_patients(request_, agent));
        Draws draws(request_.seed);
        const auto patients = static_cast<std::size_t>(request_.patients);
        for (std::size_t patient = 0; patient < patients; ++patient) {
            if (stop_.stop_requested()) return false;
            for (std::size_t a = 0; a < agents_.size(); ++a)
                place_patient(request_, request_.agents[a], patient, draws, agents_[a]);
            if (patient % 256 == 0)
                report(0.2 * static_cast<double>(patient) / static_cast<double>(patients));
        }
        return true;
    }

    void name_bands() {
        if (request_.scale == Scale::equivalent)
            ensemble_.bands.push_back({"diazepam-equivalent", {}, {}, {}});
        for (const EnsembleAgent& agent : request_.agents) {
            if (request_.scale == Scale::relative) ensemble_.bands.push_back({agent.drug, {}, {}, {}});
            if (request_.scale != Scale::amounts) continue;
            const Model model = Model::make(agent.kinetics, agent.drug).value();
            for (const std::string& column : model.columns()) ensemble_.bands.push_back({column, {}, {}, {}});
        }
    }

    /// All patients over the instants from … to - 1.
    bool advance(std::size_t from, std::size_t to, Readings& readings) {
        readings.clear();
        std::size_t output = 0;
        for (AgentPatients& agent : agents_) {
            for (std::size_t b = 0; b < agent.blocks.size(); ++b) {
                if (stop_.stop_requested()) return false;
                with_size(agent.shape, [&]<std::size_t N, bool Exchanges>() {
                    if constexpr (N <= kMostStates)
                        advance_block<N, Exchanges>(agent, b, from, to, output, readings);
                });
            }
            if (request_.scale == Scale::relative) output += 1;
            if (request_.scale == Scale::amounts) output += agent.shape.size;
        }
        return true;
    }

    template <std::size_t N, bool Exchanges>
    void advance_block(AgentPatients& agent, std::size_t b, std::size_t from, std::size_t to,
                       std::size_t output, Readings& readings) {
        Block& block = agent.blocks[b];
        auto dose = std::lower_bound(agent.arrivals.begin(), agent.arrivals.end(), from,
                                     [](const auto& entry, std::size_t i) { return entry.first.index < i; });
        std::size_t until_read = 0;  // `from` is read: it is a multiple of read_every
        for (std::size_t i = from; i < to; ++i) {
            if (i > 0) step_block<N, Exchanges>(block);
            for (; dose != agent.arrivals.end() && dose->first.index == i; ++dose)
                take_dose(agent.shape, dose->first, dose->second, block);
            if (until_read == 0) {
                read<N>(block, b * kBlock, (i - from) / request_.read_every, output, readings);
                until_read = request_.read_every;
            }
            --until_read;
        }
    }

    template <std::size_t N>
    void read(const Block& block, std::size_t patient, std::size_t at, std::size_t output,
              Readings& readings) {
        const std::size_t lanes = std::min(kBlock, readings.patients() - patient);
        for (std::size_t i = 0; i < N; ++i) {
            const bool amounts = request_.scale == Scale::amounts;
            double* row = readings.row(output + (amounts ? i : 0), at) + patient;
            for (std::size_t p = 0; p < lanes; ++p)
                row[p] += amounts ? block.state[i][p] : block.weight[i][p] * block.state[i][p];
        }
    }

    void summarise(std::size_t from, std::size_t to, Readings& readings) {
        for (std::size_t i = from, at = 0; i < to; i += request_.read_every, ++at) {
            ensemble_.times_h.push_back(request_.grid.at(i));
            for (std::size_t output = 0; output < ensemble_.bands.size(); ++output) {
                const double* row = readings.row(output, at);
                const Percentiles found = finder_.find({row, readings.patients()});
                Band& band = ensemble_.bands[output];
                band.p10.push_back(found.p10);
                band.p50.push_back(found.p50);
                band.p90.push_back(found.p90);
            }
        }
    }

    const EnsembleRequest& request_;
    std::stop_token stop_;
    const Progress& progress_;
    std::vector<AgentPatients> agents_;
    PercentileFinder finder_;
    Ensemble ensemble_;
};

}  // namespace

Faults faults_of(const EnsembleRequest& request) {
    Faults faults;
    if (request.patients < 1 || request.patients > kMostPatients)
        faults.push_back(
            {"ensemble-size",
             "patients",
             {{"value", std::to_string(request.patients)}, {"most", std::to_string(kMostPatients)}}});
    for (const EnsembleAgent& agent : request.agents) {
        const auto model = Model::make(agent.kinetics, agent.drug, agent.drug);
        if (!model) faults.insert(faults.end(), model.faults().begin(), model.faults().end());
        if (request.scale == Scale::equivalent && !agent.equivalence)
            faults.push_back({"ensemble-equivalence", agent.drug, {{"drug", agent.drug}}});
    }
    return faults;
}

Result<std::optional<Ensemble>> run_ensemble(const EnsembleRequest& request, std::stop_token stop,
                                             const Progress& progress) {
    Faults faults = faults_of(request);
    if (!faults.empty()) return faults;
    return Run(request, std::move(stop), progress).result();
}

}  // namespace evenfall::kinetics
