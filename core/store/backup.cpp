// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include "store/files.h"
#include "store/state.h"

namespace evenfall {

namespace {

/// Pages copied between two looks at the source; it is one connection's own, so nothing changes meanwhile.
constexpr int kPagesAtOnce = 1024;

void copy_pages(sql::Database& from, sql::Database& to) {
    sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
    if (backup == nullptr) throw sql::Failure{sql::fault_of(to.handle(), sqlite3_errcode(to.handle()))};
    int code = SQLITE_OK;
    while (code == SQLITE_OK) code = sqlite3_backup_step(backup, kPagesAtOnce);
    sqlite3_backup_finish(backup);
    if (code != SQLITE_DONE) throw sql::Failure{sql::fault_of(to.handle(), code)};
}

/// A digest of everything in a table, in the order of its key.
Bytes digest_of(sql::Database& db, const char* table) {
    sql::Statement rows(db.handle(), std::string("SELECT * FROM ") + table);
    const int columns = rows.columns();
    Bytes digest(32, '\0');
    while (rows.step()) {
        Bytes row = digest;
        for (int column = 0; column < columns; ++column) {
            const std::string_view bytes = rows.bytes(column);
            append_number(row, static_cast<std::int64_t>(bytes.size()));
            row.append(bytes);
        }
        digest = crypto::hash(row);
    }
    return digest;
}

void compare(sql::Database& ours, sql::Database& copy, const std::filesystem::path& to) {
    for (const char* table : {"header", "users", "data_keys", "events", "forks", "drafts", "snapshots"})
        if (digest_of(ours, table) != digest_of(copy, table))
            throw sql::Failure{{"backup-differs", to.string(), {{"table", table}}}};
}

}  // namespace

Result<Done> Store::backup(const std::filesystem::path& to) {
    if (auto fault = make_private_file(to)) return *fault;
    auto done = guarded<Done>([&]() -> Result<Done> {
        {
            sql::Database copy(to, sql::Mode::write);
            copy_pages(state_->db, copy);
            // One file, whole by itself: no side files on a stick.
            copy.run("PRAGMA journal_mode=DELETE");
        }
        sync_to_disk(to);
        sql::Database written(to, sql::Mode::read);
        check_format(written);
        compare(state_->db, written, to);
        return Done{};
    });
    if (!done) remove_store_files(to);
    return done;
}

}  // namespace evenfall
