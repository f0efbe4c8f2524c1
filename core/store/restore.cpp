// SPDX-License-Identifier: GPL-3.0-or-later
#include <cerrno>
#include <set>

#include "store/backup_run.h"
#include "store/files.h"
#include "store/logs.h"

namespace evenfall {

namespace {

/// Counts the rows of a log after `after` in one of two files.
void count_rows(sql::Database& db, const StoreState& state, const Bytes& log, std::int64_t after,
                std::int64_t RestorePreview::Count::*side, RestorePreview& preview) {
    sql::Use rows = db.prepared("SELECT " + std::string(kRowColumns) +
                                " FROM events WHERE log=?1 AND sequence>?2 ORDER BY sequence");
    for (rows->bind_blob(1, log).bind(2, after); rows->step();) {
        const Row row = read_row(*rows);
        ++(preview.logs[to_hex(log)].*side);
        ++(preview.authors[to_hex(row.author)].*side);
        if (const Proved proved = prove(row, state.clinic, state.epochs); proved.event)
            ++(preview.patients[proved.event->event.patient].*side);
        else
            ++preview.unreadable;
    }
}

RestorePreview preview_of(StoreState& state, sql::Database& theirs) {
    RestorePreview preview;
    preview.ours = heads_of(state.db);
    preview.theirs = heads_of(theirs);
    std::set<Bytes> logs;
    for (sql::Database* each : {&state.db, &theirs})
        for (const Bytes& log : logs_of(*each)) logs.insert(log);
    for (const Bytes& log : logs) {
        const std::int64_t same = last_in_common(state.db, theirs, log);
        count_rows(state.db, state, log, same, &RestorePreview::Count::lost, preview);
        count_rows(theirs, state, log, same, &RestorePreview::Count::gained, preview);
    }
    return preview;
}

/// Moves a store aside. The file goes before its write-ahead log: between the two moves there is no store at
/// all, never one without its newest rows.
std::filesystem::path move_aside(const std::filesystem::path& store, const std::string& stamp) {
    const std::filesystem::path kept = store.string() + ".before-" + stamp;
    if (is_there(kept)) throw sql::Failure{fault_of_errno(EEXIST, kept)};
    const bool stood = is_there(store);
    if (stood) move_file(store, kept);
    for (const char* end : {"-wal", "-shm", "-journal"})
        if (is_there(store.string() + end)) move_file(store.string() + end, kept.string() + end);
    return stood ? kept : std::filesystem::path();
}

}  // namespace

Result<RestorePreview> Store::preview_restore(const std::filesystem::path& backup) {
    return guarded<RestorePreview>([&]() -> Result<RestorePreview> {
        state_->need_keys();
        sql::Database theirs = open_file_of_clinic(*state_, backup);
        return preview_of(*state_, theirs);
    });
}

Result<std::filesystem::path> restore_store(const std::filesystem::path& backup,
                                            const std::filesystem::path& store, const std::string& stamp) {
    crypto::ready();
    if (auto proved = prove_file(backup); !proved) return proved.faults();
    auto lock = FileLock::take(store);
    if (!lock) return lock.faults();
    return guarded<std::filesystem::path>([&]() -> Result<std::filesystem::path> {
        const std::filesystem::path fresh = store.string() + ".restoring";
        remove_store_files(fresh);
        struct Sweep {
            const std::filesystem::path& fresh;
            ~Sweep() { remove_store_files(fresh); }  // where it was put in place nothing is left to remove
        } const sweep{fresh};
        copy_private(backup, fresh);
        const std::filesystem::path kept = move_aside(store, stamp);
        move_file(fresh, store);
        sync_to_disk(store);
        return kept;
    });
}

}  // namespace evenfall
