// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/backup_run.h"

#include <cerrno>
#include <optional>

#include <sqlite3.h>

#include "store/files.h"
#include "store/logs.h"

namespace evenfall {

namespace {

/// Copied at a time: 256 pages are 1 MiB, some milliseconds.
constexpr int kPagesAtOnce = 256;

sql::Failure differs(const std::filesystem::path& file, const std::string& where) {
    return {Fault{"backup-differs", file.string(), {{"table", where}}}};
}

/// Each row is what its hash says, and follows the row before it in its log.
void prove_rows(sql::Database& db, const Bytes& clinic, const std::filesystem::path& file) {
    sql::Use rows = db.prepared("SELECT " + std::string(kRowColumns) + " FROM events ORDER BY log, sequence");
    Row before;
    while (rows->step()) {
        Row row = read_row(*rows);
        const bool follows = row.log == before.log
                                 ? row.sequence == before.sequence + 1 && row.previous == before.hash
                                 : row.sequence == 1 && row.previous == Bytes(32, '\0');
        if (!follows || crypto::hash_of_both(associated_data(row, clinic), row.sealed) != row.hash)
            throw differs(file, "events, row " + std::to_string(row.sequence));
        before = std::move(row);
    }
}

}  // namespace

Result<Heads> prove_file(const std::filesystem::path& file) {
    return guarded<Heads>([&]() -> Result<Heads> {
        sql::Database db(file, sql::Mode::read);
        check_format(db);
        sql::Statement check(db.handle(), "PRAGMA integrity_check");
        while (check.step())
            if (check.bytes(0) != "ok") throw differs(file, std::string(check.bytes(0)));
        prove_rows(db, header(db, "clinic"), file);
        return heads_of(db);
    });
}

namespace {

/// Takes out what is one laptop's alone, and the pages that it leaves.
void strip_for_exchange(sql::Database& copy) {
    copy.run("PRAGMA temp_store=MEMORY; PRAGMA secure_delete=ON; DELETE FROM drafts; DELETE FROM snapshots");
    // Whoever opens the file, or joins the clinic from it, writes a log of their own.
    set_header(copy, "log", "");
    set_header(copy, "home", "");
    if (copy.number("PRAGMA freelist_count") == 0) return;
    // SQLite rebuilds the file in a database that it attaches, which a connection of ours refuses otherwise.
    sqlite3_limit(copy.handle(), SQLITE_LIMIT_ATTACHED, 1);
    copy.run("VACUUM");
    sqlite3_limit(copy.handle(), SQLITE_LIMIT_ATTACHED, 0);
}

}  // namespace

struct BackupRun::Parts {
    StoreState* state;
    std::filesystem::path to;
    std::filesystem::path made;  ///< what is written: `to`, or beside it a file that takes its place
    For purpose;
    std::optional<sql::Database> copy;
    sqlite3_backup* backup = nullptr;
    Heads heads{};
    bool finished = false;

    void end_copying() {
        sqlite3_backup_finish(backup);
        backup = nullptr;
    }
    void finish() {
        end_copying();
        copy->run("PRAGMA journal_mode=DELETE");  // one file, whole by itself: no side files on a stick
        if (purpose == For::exchange) strip_for_exchange(*copy);
        copy.reset();
        sync_to_disk(made);
        heads = heads_of(state->db);
        finished = true;
    }
};

/// What is replaced must be a file of this program: anything else was chosen by mistake.
static Result<Done> of_our_kind(const std::filesystem::path& file) {
    return guarded<Done>([&]() -> Result<Done> {
        sql::Database db(file, sql::Mode::read);
        check_format(db);
        return Done{};
    });
}

BackupRun::BackupRun(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {
}

BackupRun::~BackupRun() {
    parts_->end_copying();
    parts_->copy.reset();
    if (!parts_->finished) remove_store_files(parts_->made);
}

Result<std::unique_ptr<BackupRun>> BackupRun::begin(Store& store, const std::filesystem::path& to, How how) {
    // A copy in the place of the store itself would leave the program writing to a file without a name.
    std::error_code none;
    if (std::filesystem::equivalent(to, store.state_->path, none)) return fault_of_errno(EEXIST, to);
    if (how.replace && std::filesystem::exists(to, none))
        if (const auto ours = of_our_kind(to); !ours) return ours.faults();
    const std::filesystem::path made = how.replace ? to.string() + ".new" : to.string();
    if (how.replace) remove_store_files(made);  // left by a stick that was pulled out
    if (auto fault = make_private_file(made)) return *fault;
    auto run = guarded<std::unique_ptr<BackupRun>>([&]() -> Result<std::unique_ptr<BackupRun>> {
        StoreState& state = *store.state_;
        auto parts = std::make_unique<Parts>(
            Parts{&state, to, made, how.purpose, sql::Database(made, sql::Mode::write)});
        parts->backup = sqlite3_backup_init(parts->copy->handle(), "main", state.db.handle(), "main");
        if (parts->backup == nullptr)
            throw sql::Failure{sql::fault_of(parts->copy->handle(), sqlite3_errcode(parts->copy->handle()))};
        return std::unique_ptr<BackupRun>(new BackupRun(std::move(parts)));
    });
    if (!run) remove_store_files(made);
    return run;
}

Result<bool> BackupRun::step() {
    if (parts_->finished) return true;
    return guarded<bool>([&]() -> Result<bool> {
        const int code = sqlite3_backup_step(parts_->backup, kPagesAtOnce);
        if (code == SQLITE_OK) return false;
        if (code != SQLITE_DONE) throw sql::Failure{sql::fault_of(parts_->copy->handle(), code)};
        parts_->finish();
        return true;
    });
}

int BackupRun::percent() const {
    if (parts_->finished || parts_->backup == nullptr) return parts_->finished ? 100 : 0;
    const int all = sqlite3_backup_pagecount(parts_->backup);
    return all == 0 ? 0 : static_cast<int>(100LL * (all - sqlite3_backup_remaining(parts_->backup)) / all);
}

std::function<Result<Heads>()> BackupRun::proof() const {
    return [to = parts_->to, made = parts_->made, expected = parts_->heads]() -> Result<Heads> {
        auto heads = prove_file(made);
        if (heads && *heads != expected) heads = differs(to, "events").fault;
        if (heads && made != to)
            heads = guarded<Heads>([&]() -> Result<Heads> {
                move_file(made, to);
                sync_to_disk(to);
                return std::move(heads);
            });
        if (!heads) remove_store_files(made);
        return heads;
    };
}

}  // namespace evenfall
