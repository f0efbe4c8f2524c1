// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "rules/rules.h"
#include "store/store.h"

namespace evenfall {

/// What a store knows of its back-ups and proofs: sealed in it, outside the record.
struct Safekeeping {
    std::string folder;  ///< where back-ups go; empty: nobody has chosen one
    std::string last_file;
    Instant last_backup{};  ///< when the newest back-up was proved; the epoch: never
    Instant last_proof{};   ///< when all rows were last proved; the epoch: never
    bool proof_whole = false;
    Instant last_failure{};  ///< when a back-up last failed, if none has come about since; the epoch: none
    std::string failure;     ///< the fault's id

    bool operator==(const Safekeeping&) const = default;
};

Result<Safekeeping> read_safekeeping(Store& store);
Result<Done> write_safekeeping(Store& store, const Safekeeping& kept);

/// What to remind of: `backup-failed`, `backup-none`, `backup-old`, `proof-old`.
std::vector<Flag> safekeeping_flags(const Safekeeping& kept, const Rules& rules, Instant now);
/// Whether the schedule asks for a back-up (rule `backup-rotation`).
bool backup_due(const Safekeeping& kept, const Rules& rules, Instant now);

/// The name of a back-up made at an instant (UTC). It holds the clinic's id, never its name.
std::string backup_name(const Store& store, Instant now);
/// The same for an exchange file.
std::string exchange_name(const Store& store, Instant now);
/// Removes all but the newest `keep` back-ups of this clinic from a folder. Other files are never touched.
/// Fault: `file-unreadable`.
Result<std::vector<std::filesystem::path>> rotate_backups(const Store& store,
                                                          const std::filesystem::path& folder,
                                                          std::size_t keep);
/// The newest back-up of this clinic in a folder, if any.
std::optional<std::filesystem::path> newest_backup(const Store& store, const std::filesystem::path& folder);

/// How a store is opened under the rules.
StoreOptions store_options(const Rules& rules);

/// A compact, sortable stamp of an instant (UTC): "20270104-090000".
std::string file_stamp(Instant now);

}  // namespace evenfall
