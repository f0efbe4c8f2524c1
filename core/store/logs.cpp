// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/logs.h"

#include <algorithm>
#include <cerrno>

namespace evenfall {

using sql::Failure;

std::vector<Bytes> logs_of(sql::Database& db) {
    std::vector<Bytes> logs;
    Bytes log;
    sql::Use next = db.prepared("SELECT log FROM events WHERE log>?1 ORDER BY log LIMIT 1");
    while (next->bind_blob(1, log).step()) {
        log = next->bytes(0);
        next->reset();
        logs.push_back(log);
    }
    return logs;
}

std::int64_t last_sequence(sql::Database& db, const Bytes& log) {
    sql::Use last = db.prepared("SELECT sequence FROM events WHERE log=?1 ORDER BY sequence DESC LIMIT 1");
    return last->bind_blob(1, log).step() ? last->integer(0) : 0;
}

/// Hash and clock of one row.
Tail tail_at(sql::Database& db, const Bytes& log, std::int64_t sequence) {
    Tail tail{log, sequence, Bytes(32, '\0'), 0};
    sql::Use row = db.prepared("SELECT hash, clock FROM events WHERE log=?1 AND sequence=?2");
    if (row->bind_blob(1, log).bind(2, sequence).step()) {
        tail.hash = row->bytes(0);
        tail.clock_seen = row->integer(1);
    }
    return tail;
}

namespace {

/// The first row at which two files tell different stories, at or before `common`. Equal hashes vouch for all
/// rows before them, so the place is found by halving.
std::int64_t first_difference(sql::Database& ours, sql::Database& theirs, const Bytes& log,
                              std::int64_t common) {
    std::int64_t same = 0;
    std::int64_t different = common;
    while (different - same > 1) {
        const std::int64_t middle = same + (different - same) / 2;
        const bool equal = tail_at(ours, log, middle).hash == tail_at(theirs, log, middle).hash;
        (equal ? same : different) = middle;
    }
    return different;
}

}  // namespace

std::int64_t last_in_common(sql::Database& ours, sql::Database& theirs, const Bytes& log) {
    const std::int64_t common = std::min(last_sequence(ours, log), last_sequence(theirs, log));
    if (common == 0 || tail_at(ours, log, common).hash == tail_at(theirs, log, common).hash) return common;
    return first_difference(ours, theirs, log, common) - 1;
}

Heads heads_of(sql::Database& db) {
    Heads heads;
    for (const Bytes& log : logs_of(db)) {
        const std::int64_t last = last_sequence(db, log);
        heads[to_hex(log)] = {last, to_hex(tail_at(db, log, last).hash)};
    }
    return heads;
}

void check_at_rest(const std::filesystem::path& other) {
    std::error_code error;
    if (!std::filesystem::exists(other, error)) throw Failure{fault_of_errno(ENOENT, other)};
    const auto size = std::filesystem::file_size(other.string() + "-wal", error);
    if (!error && size > 0) throw Failure{{"merge-other-in-use", other.string(), {}}};
}

namespace {

void check_same_clinic(StoreState& state, sql::Database& theirs, const std::filesystem::path& other) {
    check_format(theirs);
    if (header(theirs, "clinic") != state.clinic || header(theirs, "founding key") != state.founding_key)
        throw Failure{{"merge-other-clinic", other.string(), {{"name", header(theirs, "name")}}}};
}

}  // namespace

sql::Database open_file_of_clinic(StoreState& state, const std::filesystem::path& other) {
    check_at_rest(other);
    sql::Database theirs(other, sql::Mode::read);
    check_same_clinic(state, theirs, other);
    return theirs;
}

}  // namespace evenfall
