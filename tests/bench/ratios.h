// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

namespace evenfall::bench {

/// Two benchmarks of one run whose times are compared, and what is aimed for.
struct Ratio {
    std::string of, to, aim;
};

/// Keeps the fastest time of each benchmark beside the usual table.
class FastestTimes : public benchmark::ConsoleReporter {
  public:
    void ReportRuns(const std::vector<Run>& runs) override {
        for (const Run& run : runs) {
            if (run.run_type != Run::RT_Iteration || run.error_occurred) continue;
            const double time = run.real_accumulated_time / static_cast<double>(run.iterations);
            const auto [at, is_new] = fastest_.emplace(run.run_name.function_name, time);
            if (!is_new && time < at->second) at->second = time;
        }
        ConsoleReporter::ReportRuns(runs);
    }
    const std::map<std::string, double>& fastest() const { return fastest_; }

  private:
    std::map<std::string, double> fastest_;
};

/// Runs all benchmarks (with --benchmark_repetitions=N the fastest of N counts) and prints the ratios.
inline int run_with_ratios(int argc, char** argv, const std::vector<Ratio>& ratios) {
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
    FastestTimes reporter;
    benchmark::RunSpecifiedBenchmarks(&reporter);
    for (const Ratio& ratio : ratios) {
        const auto of = reporter.fastest().find(ratio.of), to = reporter.fastest().find(ratio.to);
        if (of == reporter.fastest().end() || to == reporter.fastest().end()) continue;
        std::printf("%s / %s = %.2f (aim: %s)\n", ratio.of.c_str(), ratio.to.c_str(), of->second / to->second,
                    ratio.aim.c_str());
    }
    return 0;
}

}  // namespace evenfall::bench
