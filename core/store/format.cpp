// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/format.h"

#include <algorithm>
#include <array>

namespace evenfall {

namespace {

#define EVENFALL_ROW_TABLE                                                                          \
    "patient BLOB NOT NULL, clock INTEGER NOT NULL, log BLOB NOT NULL, sequence INTEGER NOT NULL, " \
    "number INTEGER NOT NULL, at INTEGER NOT NULL, event BLOB NOT NULL, author BLOB NOT NULL, "     \
    "epoch INTEGER NOT NULL, previous BLOB NOT NULL, hash BLOB NOT NULL, signature BLOB NOT NULL, " \
    "sealed BLOB NOT NULL, "

struct Object {
    std::string_view name;
    std::string_view sql;
};

/// The whole schema. Rows of one patient lie together (a WITHOUT ROWID table is clustered by its key).
constexpr std::array kSchema{
    Object{"header", "CREATE TABLE header(name TEXT PRIMARY KEY, value BLOB NOT NULL) WITHOUT ROWID"},
    Object{"users",
           "CREATE TABLE users(id BLOB PRIMARY KEY, name TEXT NOT NULL, salt BLOB NOT NULL, passes INTEGER "
           "NOT NULL, "
           "memory INTEGER NOT NULL, sealed BLOB NOT NULL, mark BLOB NOT NULL) WITHOUT ROWID"},
    Object{"data_keys",
           "CREATE TABLE data_keys(user BLOB NOT NULL, epoch INTEGER NOT NULL, sealed BLOB NOT NULL, "
           "PRIMARY KEY(user, epoch)) WITHOUT ROWID"},
    Object{"events", "CREATE TABLE events(" EVENFALL_ROW_TABLE
                     "PRIMARY KEY(patient, clock, log, sequence)) WITHOUT ROWID"},
    Object{"events_by_log", "CREATE UNIQUE INDEX events_by_log ON events(log, sequence)"},
    Object{"forks",
           "CREATE TABLE forks(" EVENFALL_ROW_TABLE "PRIMARY KEY(log, sequence, hash)) WITHOUT ROWID"},
    Object{"drafts", "CREATE TABLE drafts(name BLOB PRIMARY KEY, sealed BLOB NOT NULL) WITHOUT ROWID"},
    Object{"snapshots", "CREATE TABLE snapshots(name BLOB PRIMARY KEY, sealed BLOB NOT NULL) WITHOUT ROWID"},
};

#undef EVENFALL_ROW_TABLE

sql::Failure failure(const char* id, sql::Database& db, Args args = {}) {
    Fault fault = sql::fault_of(db.handle(), 0);
    return {Fault{id, fault.place, std::move(args)}};
}

bool is_ours(std::string_view name, std::string_view sql) {
    return std::any_of(kSchema.begin(), kSchema.end(),
                       [&](const Object& each) { return each.name == name && each.sql == sql; });
}

void check_schema(sql::Database& db) {
    sql::Statement objects(db.handle(), "SELECT name, sql FROM sqlite_schema");
    std::size_t found = 0;
    for (; objects.step(); ++found)
        if (!is_ours(objects.bytes(0), objects.bytes(1)))
            throw failure("store-strange-object", db, {{"name", std::string(objects.bytes(0))}});
    if (found != kSchema.size()) throw failure("store-damaged", db, {{"what", "tables"}});
}

}  // namespace

void hold_alone(sql::Database& db) {
    db.run("PRAGMA locking_mode=EXCLUSIVE");
}

void use_write_settings(sql::Database& db, std::int64_t max_pages) {
    db.run(
        "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
        "PRAGMA cell_size_check=ON; PRAGMA secure_delete=ON; PRAGMA temp_store=MEMORY; PRAGMA mmap_size=0");
    if (max_pages > 0) db.run("PRAGMA max_page_count=" + std::to_string(max_pages));
}

void make_tables(sql::Database& db) {
    for (const Object& each : kSchema) db.run(std::string(each.sql));
    db.run("PRAGMA application_id=" + std::to_string(kApplicationId));
    db.run("PRAGMA user_version=" + std::to_string(kFormat));
}

void check_format(sql::Database& db) {
    if (db.number("PRAGMA application_id") != kApplicationId) throw failure("store-not-a-store", db);
    const std::int64_t format = db.number("PRAGMA user_version");
    if (format > kFormat)
        throw failure("store-newer-version", db,
                      {{"found", std::to_string(format)}, {"known", std::to_string(kFormat)}});
    if (format < 1) throw failure("store-damaged", db, {{"what", "format"}});
    check_schema(db);
}

Bytes header(sql::Database& db, std::string_view name) {
    sql::Use read = db.prepared("SELECT value FROM header WHERE name=?1");
    if (!read->bind_text(1, name).step())
        throw failure("store-damaged", db, {{"what", "header: " + std::string(name)}});
    return Bytes(read->bytes(0));
}

void set_header(sql::Database& db, std::string_view name, std::string_view value) {
    sql::Use write = db.prepared("INSERT OR REPLACE INTO header(name, value) VALUES(?1, ?2)");
    write->bind_text(1, name).bind_blob(2, value).step();
}

}  // namespace evenfall
