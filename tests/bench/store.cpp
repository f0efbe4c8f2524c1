// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/store.h"

#include <algorithm>
#include <chrono>
#include <filesystem>

#include <benchmark/benchmark.h>
#include <nlohmann/json.hpp>
#include <sqlite3.h>
#include <stdlib.h>

#include "bench/ratios.h"
#include "store/backup_run.h"
#include "store/row.h"

// What sealing, chaining and signing add to an append, and what checking adds to a read, each against bare
// SQLite with the same rows in the same table under the same settings.

namespace evenfall {

namespace {

constexpr std::size_t kPatientEvents = 1500;
constexpr std::size_t kPatients = 20;
constexpr std::size_t kClinicPatients = 1000;
constexpr std::size_t kClinicEvents = 150;
const std::string kPassphrase = "twelve quiet herons";

std::filesystem::path new_folder() {
    std::string made = (std::filesystem::temp_directory_path() / "evenfall-bench-XXXXXX").string();
    if (mkdtemp(made.data()) == nullptr) std::abort();
    return made;
}

StoreOptions quick() {
    StoreOptions options;
    options.kdf = crypto::Kdf::least();
    return options;
}

Event entry(std::size_t patient, std::size_t number) {
    return {
        crypto::new_id(), "patient-" + std::to_string(patient), "check-in-recorded", 1,
        Body(nlohmann::json{
            {"at", "2026-12-08T10:00:00"},
            {"answers", {{"suicidal thoughts", "no"}, {"seizure", "no"}, {"cannot sit still", "a little"}}},
            {"own_words", "slept " + std::to_string(number % 9) + " hours"}})};
}

/// A store of so many patients, written round-robin so that rows of one patient come from all over the log.
struct Ground {
    std::filesystem::path folder = new_folder();
    std::filesystem::path path = folder / "store";

    Ground(std::size_t patients, std::size_t each) {
        auto made = Store::create(path, "Bench", {"Ada", Role::prescriber, ""}, kPassphrase, quick());
        if (!made) std::abort();
        for (std::size_t number = 0; number < each; number += 10) {
            std::vector<Event> events;
            for (std::size_t i = 0; i < 10; ++i)
                for (std::size_t patient = 0; patient < patients; ++patient)
                    events.push_back(entry(patient, number + i));
            if (!made->store.append(std::move(events))) std::abort();
        }
    }
    Ground(const Ground&) = delete;
    Ground& operator=(const Ground&) = delete;
    ~Ground() { std::filesystem::remove_all(folder); }
    Store open() const { return *Store::open(path, "Ada", kPassphrase, quick()); }
    static Ground& shared() {
        static Ground ground(kPatients, kPatientEvents);
        return ground;
    }
    static Ground& clinic() {
        static Ground ground(kClinicPatients, kClinicEvents);
        return ground;
    }
};

/// The same rows without any sealing: random bytes of the same length in a table of the same shape.
class Bare {
  public:
    explicit Bare(const std::filesystem::path& path) {
        sqlite3_open(path.c_str(), &db_);
        run("PRAGMA locking_mode=EXCLUSIVE; PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA "
            "secure_delete=ON;"
            "CREATE TABLE events(patient BLOB NOT NULL, clock INTEGER NOT NULL, log BLOB NOT NULL, sequence "
            "INTEGER NOT NULL,"
            "number INTEGER NOT NULL, at INTEGER NOT NULL, event BLOB NOT NULL, author BLOB NOT NULL, epoch "
            "INTEGER NOT NULL,"
            "previous BLOB NOT NULL, hash BLOB NOT NULL, signature BLOB NOT NULL, sealed BLOB NOT NULL,"
            "PRIMARY KEY(patient, clock, log, sequence)) WITHOUT ROWID;"
            "CREATE UNIQUE INDEX events_by_log ON events(log, sequence)");
        sqlite3_prepare_v2(db_, "INSERT INTO events VALUES(?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)", -1,
                           &insert_, nullptr);
    }
    Bare(const Bare&) = delete;
    Bare& operator=(const Bare&) = delete;
    ~Bare() {
        sqlite3_finalize(insert_);
        sqlite3_close(db_);
    }
    void append(std::size_t count, std::size_t sealed_size) {
        run("BEGIN IMMEDIATE");
        for (std::size_t i = 0; i < count; ++i) insert(sealed_size);
        run("COMMIT");
    }

  private:
    void run(const char* sql) {
        if (sqlite3_exec(db_, sql, nullptr, nullptr, nullptr) != SQLITE_OK) std::abort();
    }
    void blob(int at, std::size_t size) {
        sqlite3_bind_blob(insert_, at, bytes_.data(), static_cast<int>(size), SQLITE_STATIC);
    }
    void insert(std::size_t sealed_size) {
        ++sequence_;
        const Bytes patient = crypto::hash(std::to_string(sequence_ % kPatients), 16);
        sqlite3_bind_blob(insert_, 1, patient.data(), 16, SQLITE_STATIC);
        for (const int at : {2, 4, 5, 6, 9})
            sqlite3_bind_int64(insert_, at, sequence_ + (at == 2 ? 1'800'000'000'000'000 : 0));
        for (const int at : {3, 7, 8}) blob(at, 16);
        for (const int at : {10, 11}) blob(at, 32);
        blob(12, 64);
        blob(13, sealed_size);
        if (sqlite3_step(insert_) != SQLITE_DONE) std::abort();
        sqlite3_reset(insert_);
    }

    sqlite3* db_ = nullptr;
    sqlite3_stmt* insert_ = nullptr;
    std::int64_t sequence_ = 0;
    Bytes bytes_ = Bytes(4096, 'x');
};

std::size_t sealed_size() {
    return event_text(entry(0, 0))->size() + crypto::kSealExtra;
}

void append_many(benchmark::State& state, std::size_t count) {
    const std::filesystem::path folder = new_folder();
    {
        auto made = Store::create(folder / "s", "Bench", {"Ada", Role::prescriber, ""}, kPassphrase, quick());
        std::size_t number = 0;
        for (auto _ : state) {
            std::vector<Event> events;
            for (std::size_t i = 0; i < count; ++i, ++number)
                events.push_back(entry(number % kPatients, number));
            const auto start = std::chrono::steady_clock::now();
            if (!made->store.append(std::move(events))) std::abort();
            state.SetIterationTime(
                std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        }
    }
    std::filesystem::remove_all(folder);
}

void commit_many(benchmark::State& state, std::size_t count) {
    const std::filesystem::path folder = new_folder();
    {
        Bare bare(folder / "b");
        const std::size_t size = sealed_size();
        for (auto _ : state) {
            const auto start = std::chrono::steady_clock::now();
            bare.append(count, size);
            state.SetIterationTime(
                std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        }
    }
    std::filesystem::remove_all(folder);
}

void append_one(benchmark::State& state) {
    append_many(state, 1);
}
void commit_one(benchmark::State& state) {
    commit_many(state, 1);
}
void append_100(benchmark::State& state) {
    append_many(state, 100);
}
void commit_100(benchmark::State& state) {
    commit_many(state, 100);
}
BENCHMARK(append_one)->UseManualTime();
BENCHMARK(commit_one)->UseManualTime();
BENCHMARK(append_100)->UseManualTime();
BENCHMARK(commit_100)->UseManualTime();

/// Reads a patient, and has the tree of every entry built where `look` says so; how many entries there are.
std::size_t read_entries(Store& store, std::size_t patient, bool look) {
    const auto events = store.read("patient-" + std::to_string(patient));
    std::size_t found = events->size();
    if (look)
        for (const StoredEvent& each : *events) found -= each.event.body->is_object() ? 0 : 1;
    return found;
}

void read_patient(benchmark::State& state) {
    Store store = Ground::shared().open();
    for (auto _ : state)
        if (read_entries(store, 7, true) != kPatientEvents) std::abort();
}
BENCHMARK(read_patient);

/// The floor: the rows of the patient read, each sealed text opened under a key and parsed; nothing checked,
/// and the text that is parsed is one of the same kind.
void read_open_parse(benchmark::State& state) {
    sqlite3* db = nullptr;
    sqlite3_open(Ground::shared().path.c_str(), &db);
    sqlite3_stmt* rows = nullptr;
    sqlite3_prepare_v2(db,
                       "SELECT * FROM events WHERE patient=(SELECT patient FROM events GROUP BY patient "
                       "HAVING count(*)=1500 LIMIT 1)",
                       -1, &rows, nullptr);
    const SecretBytes key = crypto::random_secret(crypto::kKeyBytes);
    const Bytes text = *event_text(entry(7, 0));
    const Bytes sealed = crypto::seal(text, "row", key);
    for (auto _ : state) {
        std::size_t found = 0;
        while (sqlite3_step(rows) == SQLITE_ROW) {
            benchmark::DoNotOptimize(sqlite3_column_blob(rows, 12));
            const auto opened = crypto::open(sealed, "row", key);
            const nlohmann::json tree = nlohmann::json::parse(*opened);
            found += tree.is_object() ? 1 : 0;
        }
        sqlite3_reset(rows);
        if (found != kPatientEvents) std::abort();
    }
    sqlite3_finalize(rows);
    sqlite3_close(db);
}
BENCHMARK(read_open_parse);

/// The whole store, patient by patient: every seal, hash and link checked, every text gone through to its end
/// and found to be an entry. With `look`, the tree of every entry is built as well, as a fold has it.
void read_whole(benchmark::State& state, bool look) {
    Store store = Ground::shared().open();
    for (auto _ : state) {
        std::size_t found = 0;
        for (std::size_t patient = 0; patient < kPatients; ++patient)
            found += read_entries(store, patient, look);
        if (found != kPatients * kPatientEvents) std::abort();
    }
}
void read_all(benchmark::State& state) {
    read_whole(state, false);
}
void read_all_and_look(benchmark::State& state) {
    read_whole(state, true);
}
BENCHMARK(read_all)->Unit(benchmark::kMillisecond);
BENCHMARK(read_all_and_look)->Unit(benchmark::kMillisecond);

/// The floor of it: the bare scan, and for each row a text of the same length opened, hashed and, where
/// `parse` says so, parsed.
void scan_all(benchmark::State& state, bool parse) {
    sqlite3* db = nullptr;
    sqlite3_open(Ground::shared().path.c_str(), &db);
    sqlite3_stmt* rows = nullptr;
    sqlite3_prepare_v2(db, "SELECT * FROM events ORDER BY patient, clock, log, sequence", -1, &rows, nullptr);
    const SecretBytes key = crypto::random_secret(crypto::kKeyBytes);
    const Bytes sealed = crypto::seal(*event_text(entry(7, 0)), "row", key);
    const Bytes data(190, 'x');
    for (auto _ : state) {
        std::size_t found = 0;
        while (sqlite3_step(rows) == SQLITE_ROW) {
            benchmark::DoNotOptimize(sqlite3_column_blob(rows, 12));
            benchmark::DoNotOptimize(crypto::hash_of_both(data, sealed));
            const auto opened = crypto::open(sealed, "row", key);
            found += !parse || nlohmann::json::parse(*opened).is_object() ? 1 : 0;
        }
        sqlite3_reset(rows);
        if (found < kPatients * kPatientEvents) std::abort();
    }
    sqlite3_finalize(rows);
    sqlite3_close(db);
}
void scan_cipher_hash(benchmark::State& state) {
    scan_all(state, false);
}
void scan_cipher_hash_parse(benchmark::State& state) {
    scan_all(state, true);
}
BENCHMARK(scan_cipher_hash)->Unit(benchmark::kMillisecond);
BENCHMARK(scan_cipher_hash_parse)->Unit(benchmark::kMillisecond);

void check_all(benchmark::State& state) {
    Store store = Ground::shared().open();
    for (auto _ : state)
        if (!store.check()->whole()) std::abort();
}
BENCHMARK(check_all)->Unit(benchmark::kMillisecond);

void check_clinic(benchmark::State& state) {
    Store store = Ground::clinic().open();
    for (auto _ : state)
        if (!store.check()->whole()) std::abort();
    state.counters["rows"] = static_cast<double>(kClinicPatients * kClinicEvents);
}
BENCHMARK(check_clinic)->Unit(benchmark::kMillisecond);

/// Copied while open, and proved afterwards.
void back_up_clinic(benchmark::State& state) {
    Store store = Ground::clinic().open();
    const std::filesystem::path to = Ground::clinic().folder / "backup";
    for (auto _ : state) {
        if (!store.backup(to)) std::abort();
        state.PauseTiming();
        state.counters["MB"] = static_cast<double>(std::filesystem::file_size(to)) / 1e6;
        std::filesystem::remove(to);
        state.ResumeTiming();
    }
}
BENCHMARK(back_up_clinic)->Unit(benchmark::kMillisecond);

/// The longest that the window waits for one step of it.
void back_up_step(benchmark::State& state) {
    Store store = Ground::clinic().open();
    const std::filesystem::path to = Ground::clinic().folder / "stepped";
    double longest = 0;
    for (auto _ : state) {
        auto run = BackupRun::begin(store, to);
        if (!run) std::abort();
        for (bool more = true; more;) {
            const auto start = std::chrono::steady_clock::now();
            const auto step = (*run)->step();
            if (!step) std::abort();
            more = !*step;
            longest = std::max(
                longest, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        }
        run->reset();
        std::filesystem::remove(to);
    }
    state.counters["longest_ms"] = longest * 1000;
}
BENCHMARK(back_up_step)->Unit(benchmark::kMillisecond)->Iterations(1);

void make_in_memory(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(Store::in_memory("Demo", {"Ada", Role::prescriber, ""}));
}
BENCHMARK(make_in_memory)->Unit(benchmark::kMillisecond);

}  // namespace

}  // namespace evenfall

int main(int argc, char** argv) {
    evenfall::crypto::ready();
    return evenfall::bench::run_with_ratios(argc, argv,
                                            {{"append_one", "commit_one", "at most 1.3"},
                                             {"append_100", "commit_100", "at most 1.3"},
                                             {"read_patient", "read_open_parse", "at most 2"},
                                             {"read_all", "scan_cipher_hash", "at most 1.5"},
                                             {"read_all_and_look", "scan_cipher_hash_parse", ""}});
}
