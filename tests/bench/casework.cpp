// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include <benchmark/benchmark.h>

#include "casework/desk.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "rules/texts.h"

// The caseload of many people: the shipped one over and over under new ids. What a list costs from nothing,
// and what one new entry costs; the cost of a person must not grow with how many there are.

namespace evenfall {
namespace {

struct Shipped {
    LocalTime as_of{};
    std::vector<Event> clinic;
    std::map<PatientId, std::vector<Event>> people;
    Formulary formulary = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules = Rules::load(resources_folder() / "rules.json").value();

    Shipped() {
        const auto path = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";
        auto file = read_caseload(read_text_file(path, 32u << 20).value(), "caseload.json").value();
        as_of = file.as_of;
        for (Event& event : file.events)
            if (event.patient.empty())
                clinic.push_back(std::move(event));
            else
                people[event.patient].push_back(std::move(event));
    }
};

const Shipped& shipped() {
    static const Shipped loaded;
    return loaded;
}

std::vector<Event> events_of(std::size_t patients) {
    std::vector<Event> events = shipped().clinic;
    auto person = shipped().people.begin();
    for (std::size_t at = 0; at < patients; ++at) {
        std::string id = std::to_string(at);
        id.insert(0, 32 - id.size(), '0');
        for (Event event : person->second) {
            event.patient = id;
            events.push_back(std::move(event));
        }
        if (++person == shipped().people.end()) person = shipped().people.begin();
    }
    return events;
}

Desk desk_of(std::size_t patients) {
    const Instant at(shipped().as_of.time_since_epoch());
    return Desk::open(log_in_memory(
                          "bench", [at] { return at; }, events_of(patients)),
                      shipped().formulary, shipped().rules, {"bench", "Bench", Role::prescriber, ""})
        .value();
}

void BM_CaseloadFromNothing(benchmark::State& state) {
    const auto patients = static_cast<std::size_t>(state.range(0));
    for (auto _ : state) {
        state.PauseTiming();
        Desk desk = desk_of(patients);
        Faults faults;
        state.ResumeTiming();
        benchmark::DoNotOptimize(desk.caseload(shipped().as_of, faults));
    }
    state.counters["per_person"] =
        benchmark::Counter(static_cast<double>(patients) * static_cast<double>(state.iterations()),
                           benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(BM_CaseloadFromNothing)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond)->Iterations(2);

void BM_OneNewEntry(benchmark::State& state) {
    Desk desk = desk_of(static_cast<std::size_t>(state.range(0)));
    Faults faults;
    desk.caseload(shipped().as_of, faults);
    std::size_t at = 0;
    for (auto _ : state) {
        const PatientId patient = desk.patients()[at++ % desk.patients().size()];
        if (!desk.carry_out(patient, {NoteAdded{"seen"}}, {}, shipped().as_of)) std::abort();
        benchmark::DoNotOptimize(desk.caseload(shipped().as_of, faults));
    }
}
BENCHMARK(BM_OneNewEntry)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond)->Iterations(40);

}  // namespace
}  // namespace evenfall

BENCHMARK_MAIN();
