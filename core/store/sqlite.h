// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>

#include "store/bytes.h"
#include "units/result.h"

struct sqlite3;
struct sqlite3_stmt;

namespace evenfall::sql {

/// A fault on its way from SQLite to the public edge of the store, where it becomes a value again. Thrown and
/// caught within this room only.
struct Failure {
    Fault fault;
};

/// One prepared statement. Parameters and columns are numbered from 1 and 0, as SQLite has it.
class Statement {
  public:
    Statement(sqlite3* db, std::string_view sql);
    Statement(Statement&&) noexcept = default;
    Statement& operator=(Statement&&) noexcept = default;

    Statement& bind(int parameter, std::int64_t value);
    Statement& bind_blob(int parameter, std::string_view bytes);  ///< bytes must outlive the step
    Statement& bind_text(int parameter, std::string_view text);   ///< likewise

    bool step();  ///< whether a row stands there
    void reset();

    int columns() const;
    std::int64_t integer(int column) const;
    std::string_view bytes(int column) const;  ///< valid until the next step

  private:
    struct Finish {
        void operator()(sqlite3_stmt* statement) const;
    };
    std::unique_ptr<sqlite3_stmt, Finish> statement_;
};

/// A statement in use: reset when it goes out of scope, so that no cursor stays open.
class Use {
  public:
    explicit Use(Statement& statement) : statement_(&statement) { statement_->reset(); }
    Use(const Use&) = delete;
    Use& operator=(const Use&) = delete;
    ~Use() { statement_->reset(); }
    Statement* operator->() { return statement_; }
    Statement& operator*() { return *statement_; }

  private:
    Statement* statement_;
};

/// `read` takes the file as one that nobody writes meanwhile.
enum class Mode { create, write, read };

/// A connection with the store's settings: nothing in a schema is trusted, no triggers, no views.
class Database {
  public:
    /// `path` ":memory:" makes one that lives in memory.
    Database(const std::filesystem::path& path, Mode mode);

    void run(const std::string& sql);           ///< one or more statements without results
    std::int64_t number(std::string_view sql);  ///< first column of the first row, 0 if none
    Use prepared(std::string_view sql);         ///< kept for the connection's life
    sqlite3* handle() const { return db_.get(); }

  private:
    struct Close {
        void operator()(sqlite3* db) const;
    };
    std::unique_ptr<sqlite3, Close> db_;
    std::unordered_map<std::string, Statement> kept_;
};

/// All or nothing: rolls back unless `commit` was reached. Within another one it is a part of that.
class Transaction {
  public:
    explicit Transaction(Database& db);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

  private:
    Database* db_;
    bool inner_;
    bool open_ = true;
};

/// The fault that an SQLite result code stands for.
Fault fault_of(sqlite3* db, int code);

}  // namespace evenfall::sql
