// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/sqlite.h"

#include <sqlite3.h>

namespace evenfall::sql {

namespace {

const char* fault_id(int code) {
    switch (code & 0xFF) {
        case SQLITE_FULL:
            return "store-disk-full";
        case SQLITE_READONLY:
            return "store-read-only";
        case SQLITE_NOTADB:
            return "store-not-a-store";
        case SQLITE_CORRUPT:
            return "store-damaged";
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "store-busy";
        case SQLITE_PERM:
        case SQLITE_AUTH:
        case SQLITE_CANTOPEN:
            return "store-no-permission";
        case SQLITE_NOMEM:
            return "store-no-memory";
        default:
            return "store-disk-failed";
    }
}

[[noreturn]] void fail(sqlite3* db, int code) {
    throw Failure{fault_of(db, code)};
}

void check(sqlite3* db, int code) {
    if (code != SQLITE_OK) fail(db, code);
}

int flags_of(Mode mode) {
    switch (mode) {
        case Mode::create:
            return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
        case Mode::write:
            return SQLITE_OPEN_READWRITE;
        case Mode::read:
            break;
    }
    return SQLITE_OPEN_READONLY | SQLITE_OPEN_URI;
}

/// A file that nobody writes, read without laying anything beside it: it may be on a stick that is
/// write-protected.
std::string frozen_name(const std::filesystem::path& path) {
    constexpr std::string_view plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/";
    std::string name = "file:";
    for (const char each : std::filesystem::absolute(path).string()) {
        if (plain.find(each) != std::string_view::npos)
            name.push_back(each);
        else
            name.append("%").append(to_hex(std::string_view(&each, 1)));
    }
    return name + "?immutable=1";
}

void distrust(sqlite3* db) {
    sqlite3_extended_result_codes(db, 1);
    sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
    sqlite3_db_config(db, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_limit(db, SQLITE_LIMIT_LENGTH, 16 << 20);
    sqlite3_limit(db, SQLITE_LIMIT_ATTACHED, 0);
}

}  // namespace

Fault fault_of(sqlite3* db, int code) {
    const char* place = db == nullptr ? nullptr : sqlite3_db_filename(db, "main");
    const char* says = db == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(db);
    return {fault_id(code),
            place == nullptr ? "" : place,
            {{"says", says}, {"what", says}, {"code", std::to_string(code)}}};
}

void Statement::Finish::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

Statement::Statement(sqlite3* db, std::string_view sql) {
    sqlite3_stmt* made = nullptr;
    check(db, sqlite3_prepare_v3(db, sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT,
                                 &made, nullptr));
    statement_.reset(made);
}

Statement& Statement::bind(int parameter, std::int64_t value) {
    check(sqlite3_db_handle(statement_.get()), sqlite3_bind_int64(statement_.get(), parameter, value));
    return *this;
}

Statement& Statement::bind_blob(int parameter, std::string_view bytes) {
    const char* from = bytes.data() == nullptr ? "" : bytes.data();
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_blob64(statement_.get(), parameter, from, bytes.size(), SQLITE_STATIC));
    return *this;
}

Statement& Statement::bind_text(int parameter, std::string_view text) {
    const char* from = text.data() == nullptr ? "" : text.data();
    check(sqlite3_db_handle(statement_.get()),
          sqlite3_bind_text64(statement_.get(), parameter, from, text.size(), SQLITE_STATIC, SQLITE_UTF8));
    return *this;
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) return true;
    if (code != SQLITE_DONE) fail(sqlite3_db_handle(statement_.get()), code);
    return false;
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
}

int Statement::columns() const {
    return sqlite3_column_count(statement_.get());
}

std::int64_t Statement::integer(int column) const {
    return sqlite3_column_int64(statement_.get(), column);
}

std::string_view Statement::bytes(int column) const {
    const void* from = sqlite3_column_blob(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return from == nullptr ? std::string_view() : std::string_view(static_cast<const char*>(from), size);
}

void Database::Close::operator()(sqlite3* db) const {
    sqlite3_close_v2(db);
}

Database::Database(const std::filesystem::path& path, Mode mode) {
    sqlite3* made = nullptr;
    const std::string name = mode == Mode::read ? frozen_name(path) : path.string();
    const int code = sqlite3_open_v2(name.c_str(), &made, flags_of(mode) | SQLITE_OPEN_NOMUTEX, nullptr);
    db_.reset(made);
    if (code != SQLITE_OK) fail(made, code);
    distrust(made);
}

void Database::run(const std::string& sql) {
    check(db_.get(), sqlite3_exec(db_.get(), sql.c_str(), nullptr, nullptr, nullptr));
}

std::int64_t Database::number(std::string_view sql) {
    Statement statement(db_.get(), sql);
    return statement.step() ? statement.integer(0) : 0;
}

Use Database::prepared(std::string_view sql) {
    const auto [place, fresh] = kept_.try_emplace(std::string(sql), db_.get(), sql);
    return Use(place->second);
}

Transaction::Transaction(Database& db) : db_(&db), inner_(sqlite3_get_autocommit(db.handle()) == 0) {
    db_->run(inner_ ? "SAVEPOINT inner_part" : "BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    // SQLite may have rolled back by itself (a full disk); the second attempt then says so and changes
    // nothing.
    const char* undo = inner_ ? "ROLLBACK TO inner_part; RELEASE inner_part" : "ROLLBACK";
    if (open_) sqlite3_exec(db_->handle(), undo, nullptr, nullptr, nullptr);
}

void Transaction::commit() {
    db_->run(inner_ ? "RELEASE inner_part" : "COMMIT");
    open_ = false;
}

}  // namespace evenfall::sql
