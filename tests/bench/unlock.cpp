// SPDX-License-Identifier: GPL-3.0-or-later
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>

#include <sys/wait.h>
#include <unistd.h>

#include "casework/store_log.h"
#include "exchange/caseload_file.h"
#include "model/strict_json.h"
#include "rules/texts.h"

// From the passphrase to the sorted caseload, with the lines that an earlier session sealed and without them;
// against the passphrase's key alone, in one run. Each measure is a process of its own, so that its memory is
// its own. Arguments: people (1000) and events each (1500).

namespace evenfall {
namespace {

using Seconds = std::chrono::duration<double>;

const std::string kPassphrase = "twelve quiet herons";
constexpr std::size_t kShippedBytes = 32u << 20;
constexpr int kEventsADay = 5;  // three doses, a rating of symptoms, and a note

double timed(const std::function<void()>& act) {
    const auto start = std::chrono::steady_clock::now();
    act();
    return Seconds(std::chrono::steady_clock::now() - start).count();
}

/// Megabytes of a line of /proc/self/status ("VmRSS", "VmHWM").
double megabytes(const std::string& name) {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
        if (line.starts_with(name)) return std::strtod(line.c_str() + name.size() + 1, nullptr) / 1024;
    return 0;
}

struct Ground {
    Formulary formulary = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules = Rules::load(resources_folder() / "rules.json").value();
    LocalTime now{};
    std::vector<Event> clinic;
    std::map<PatientId, std::vector<Event>> people;

    Ground() {
        const auto path = std::filesystem::path(EVENFALL_SOURCE_DIR) / "sample_data" / "caseload.json";
        auto file = read_caseload(read_text_file(path, kShippedBytes).value(), "caseload.json").value();
        now = file.as_of;
        for (Event& event : file.events)
            (event.patient.empty() ? clinic : people[event.patient]).push_back(event);
    }
};

/// One of the shipped people under a new id, with a diary of the years before: as many events as are asked
/// for.
std::vector<Event> person(const std::vector<Event>& shipped, std::size_t number, std::size_t events,
                          LocalTime now) {
    std::string id = std::to_string(number);
    id.insert(0, 32 - id.size(), '0');
    std::vector<Event> all;
    const std::size_t older = events > shipped.size() ? events - shipped.size() : 0;
    const Day first = day_of(now) - std::chrono::days(200 + older / kEventsADay);
    for (std::size_t at = 0; at < older; ++at) {
        const Day day = first + std::chrono::days(at / kEventsADay);
        const auto which = static_cast<int>(at % kEventsADay);
        const LocalTime time = at_clock(day, {(8 + 5 * which) % 24 * 60});
        if (which < 3)
            all.push_back(write_change(
                "", id,
                IntakeNoted{{{time, "diazepam", Dose::milligrams(4), TakenWhy::as_planned, ""}}, {}}));
        else if (which == 3)
            all.push_back(write_change(
                "", id, SymptomsNoted{{{time, "anxiety", int(at % 9)}, {time, "poor sleep", int(at % 7)}}}));
        else
            all.push_back(write_change("", id, NoteAdded{"Spoke of sleep, work and the walks."}));
    }
    for (Event event : shipped) {
        event.patient = id;
        event.id.clear();
        all.push_back(std::move(event));
    }
    return all;
}

void build(const std::filesystem::path& path, std::size_t people, std::size_t events) {
    const Ground ground;
    auto made = Store::create(path, "Bench", {"Ada", Role::prescriber, ""}, kPassphrase);
    if (!made || !made->store.append(ground.clinic)) std::abort();
    auto shipped = ground.people.begin();
    for (std::size_t number = 0; number < people; ++number) {
        if (!made->store.append(person(shipped->second, number, events, ground.now))) std::abort();
        if (++shipped == ground.people.end()) shipped = ground.people.begin();
    }
}

Desk sit_down(const std::filesystem::path& path, const Ground& ground) {
    auto store = Store::open(path, "Ada", kPassphrase);
    if (!store) {
        std::fprintf(stderr, "%s\n", store.faults().front().id.c_str());
        std::exit(1);
    }
    const Worker worker = worker_of(*store);
    return Desk::open(std::make_unique<StoreLog>(std::move(*store)), ground.formulary, ground.rules, worker)
        .value();
}

/// The key alone, then the list as the window asks for it.
void unlock(const std::filesystem::path& path) {
    const Ground ground;
    crypto::ready();
    const auto key_alone = [] {
        return timed([] {
            if (!crypto::passphrase_key(kPassphrase, Bytes(16, 's'), crypto::Kdf{})) std::abort();
        });
    };
    key_alone();  // pays for the first touch of the memory, which the store would else be spared
    const double before = key_alone();
    std::optional<Desk> desk;
    Desk::KnownCaseload known;
    double opened = 0;
    const double whole = timed([&] {
        opened = timed([&] { desk.emplace(sit_down(path, ground)); });
        known = desk->known_caseload(ground.now);
    });
    // Before and after, since a machine that does other things as well is not always as quick.
    const double key = (before + key_alone()) / 2;
    std::printf(
        "unlock: key %.3f s, store and desk %.3f s, to the sorted list %.3f s = %.2f times the key; %zu "
        "lines, %zu missing; %.0f MB (at the most %.0f MB, of which the key takes 96)\n",
        key, opened, whole, whole / key, known.lines.size(), known.missing, megabytes("VmRSS"),
        megabytes("VmHWM"));
    if (known.missing > 0) return;
    const PatientId patient = desk->patients()[desk->patients().size() / 2];
    if (!desk->record(patient)) std::abort();
    const double entry = timed([&] {
        if (!desk->carry_out(patient, {NoteAdded{"seen"}}, {}, ground.now)) std::abort();
        if (!desk->line(patient, ground.now)) std::abort();
        if (desk->known_caseload(ground.now).missing > 0) std::abort();
    });
    std::printf("one new entry, written and the list in order again: %.1f ms\n", entry * 1e3);
}

/// Everyone is looked at, one by one, and their lines are sealed for the next session.
void look(const std::filesystem::path& path) {
    const Ground ground;
    Desk desk = sit_down(path, ground);
    Faults faults;
    double longest = 0;
    std::size_t looks = 0;
    const double all = timed([&] {
        for (bool more = true; more; ++looks)
            longest = std::max(longest, timed([&] { more = desk.look_on(ground.now, faults); }));
    });
    if (!faults.empty()) std::abort();
    std::printf("everyone looked at: %.2f s, %.2f ms a person, the longest look %.1f ms; %.0f MB\n", all,
                all * 1e3 / static_cast<double>(desk.patients().size()), longest * 1e3, megabytes("VmRSS"));
}

void in_a_process(const std::function<void()>& act) {
    std::fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        act();
        std::fflush(stdout);
        _exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (status != 0) std::abort();
}

}  // namespace
}  // namespace evenfall

int main(int count, char** arguments) {
    using namespace evenfall;
    const std::size_t people = count > 1 ? std::strtoul(arguments[1], nullptr, 10) : 1000;
    const std::size_t events = count > 2 ? std::strtoul(arguments[2], nullptr, 10) : 1500;
    std::string folder = (std::filesystem::temp_directory_path() / "evenfall-unlock-XXXXXX").string();
    if (mkdtemp(folder.data()) == nullptr) return 1;
    const std::filesystem::path path = std::filesystem::path(folder) / "store";
    std::printf("%zu people with %zu events each\n", people, events);
    in_a_process([&] { build(path, people, events); });
    std::printf("without kept lines, ");
    in_a_process([&] { unlock(path); });
    in_a_process([&] { look(path); });
    for (int again = 0; again < 3; ++again) in_a_process([&] { unlock(path); });
    std::filesystem::remove_all(folder);
    return 0;
}
