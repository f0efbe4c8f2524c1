// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <random>

#include <benchmark/benchmark.h>

#include "bench/ratios.h"
#include "diary/statistics.h"
#include "rules/texts.h"
#include "stabilization/check.h"

// A 90-day diary with about 1 000 entries and 2 000 ratings: the whole check, permutation test included,
// beside a permutation test written the plain way (the rank statistic sorted anew for each permutation). Aim
// of the check: under 100 ms.

namespace evenfall {
namespace {

StabilizationInput diary_of_90_days() {
    std::mt19937_64 random(90);
    const auto between = [&](int low, int high) {
        return low + static_cast<int>((random() >> 11U) % static_cast<std::uint64_t>(high - low + 1));
    };
    const Day first = day_at(2026, 8, 3);
    StabilizationInput input;
    Regimen regimen;
    for (const int hour : {7, 9, 11, 13, 14, 15, 17, 19, 20, 21, 22})
        regimen.doses.push_back(
            {{hour * 60}, hour % 2 == 0 ? "lorazepam" : "clonazepam", Dose::micrograms(250), "", ""});
    input.intended.push_back({{}, regimen});
    for (int day = 0; day < 90; ++day) {
        const LocalTime start(first + std::chrono::days(day));
        for (const DoseTime& each : regimen.doses)
            input.diary.intake.push_back({start + std::chrono::minutes(each.at.minutes + between(-50, 90)),
                                          each.drug, each.amount, TakenWhy::unsaid, ""});
        for (int each = 0; each < 22; ++each)
            input.diary.ratings.push_back({start + std::chrono::minutes(between(420, 1430)),
                                           each % 3 == 0   ? "anxiety"
                                           : each % 3 == 1 ? "tremor"
                                                           : "sleep",
                                           between(0, 10)});
    }
    input.as_of = LocalTime(first + std::chrono::days(91));
    return input;
}

void check_of_90_days(benchmark::State& state) {
    const auto formulary = load_formulary(resources_folder() / "formulary.json").value();
    const auto rules = Rules::load(resources_folder() / "rules.json").value();
    const Zone zone = Zone::named("America/New_York", "").value();
    const StabilizationInput input = diary_of_90_days();
    for (auto _ : state) benchmark::DoNotOptimize(check_stabilization(input, formulary, rules, zone));
    state.counters["entries"] = static_cast<double>(input.diary.intake.size());
    state.counters["ratings"] = static_cast<double>(input.diary.ratings.size());
}
BENCHMARK(check_of_90_days)->Unit(benchmark::kMillisecond);

void plain_permutation_test(benchmark::State& state) {
    const StabilizationInput input = diary_of_90_days();
    std::mt19937_64 random(1);
    std::vector<double> values;
    for (const Rating& each : input.diary.ratings) values.push_back(each.severity);
    for (auto _ : state) {
        for (int i = 0; i < 1999; ++i) {
            for (std::size_t day = 0; day + 22 <= values.size(); day += 22)
                std::shuffle(values.begin() + static_cast<std::ptrdiff_t>(day),
                             values.begin() + static_cast<std::ptrdiff_t>(day + 22), random);
            const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
            benchmark::DoNotOptimize(
                probability_of_superiority({values.begin(), middle}, {middle, values.end()}));
        }
    }
}
BENCHMARK(plain_permutation_test)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace evenfall

int main(int argc, char** argv) {
    return evenfall::bench::run_with_ratios(
        argc, argv, {{"check_of_90_days", "plain_permutation_test", "the whole check under 100 ms"}});
}
