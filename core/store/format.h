// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "store/crypto.h"
#include "store/sqlite.h"

namespace evenfall {

/// "EvFl": SQLite's header field that names a file as a store.
inline constexpr std::int64_t kApplicationId = 0x4576466C;
/// The format that this program writes. A newer one is refused; every older one must stay readable.
inline constexpr std::int64_t kFormat = 1;

/// Keeps others out, and the index of the write-ahead log in memory of our own instead of a file shared with
/// others. Must come before anything is read.
void hold_alone(sql::Database& db);

/// Settings of a connection that writes: durable before a commit returns, one copy only.
void use_write_settings(sql::Database& db, std::int64_t max_pages);

/// Makes the tables of an empty file.
void make_tables(sql::Database& db);

/// Refuses what is no store of a known format, or holds anything in its schema that a store has not: a
/// trigger or a view could run an attacker's SQL. Throws sql::Failure: `store-not-a-store`,
/// `store-newer-version`, `store-damaged` (place: the name of the strange object).
void check_format(sql::Database& db);

/// A value of the header, which everyone can read. Throws `store-damaged` where it is missing.
Bytes header(sql::Database& db, std::string_view name);
void set_header(sql::Database& db, std::string_view name, std::string_view value);

}  // namespace evenfall
