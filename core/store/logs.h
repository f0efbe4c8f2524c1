// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "store/state.h"

// What the logs of one file are, and how they compare with those of another. Private to this room.

namespace evenfall {

std::vector<Bytes> logs_of(sql::Database& db);
/// The newest sequence of a log; 0 where the file has none of it.
std::int64_t last_sequence(sql::Database& db, const Bytes& log);
/// Hash and clock of one row.
Tail tail_at(sql::Database& db, const Bytes& log, std::int64_t sequence);
/// The newest row of every log.
Heads heads_of(sql::Database& db);
/// The last row of a log up to which two files tell the same story; 0 where they share none.
std::int64_t last_in_common(sql::Database& ours, sql::Database& theirs, const Bytes& log);

/// Throws `store-no-such-file` or, where its write-ahead log shows that it is open or was not closed,
/// `merge-other-in-use`.
void check_at_rest(const std::filesystem::path& other);

/// Opens another file of the same clinic for reading. Throws `merge-other-in-use`, `merge-other-clinic`, and
/// what opening finds.
sql::Database open_file_of_clinic(StoreState& state, const std::filesystem::path& other);

}  // namespace evenfall
