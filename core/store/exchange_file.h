// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

#include "store/store.h"

namespace evenfall {

/// Writes what a store holds into one sealed file, for the clinic's other laptops to take in
/// (`Store::merge`), and proves it. Unfinished entries stay here. Faults: `store-exists` (unless `replace`),
/// `store-no-such-folder`, `backup-differs`, and those of writing.
Result<Done> write_exchange(Store& store, const std::filesystem::path& to, bool replace);

/// Makes another laptop's store out of an exchange file: the same clinic, the same users with the
/// passphrases that they had, and a log of its own. Opened by one of those users. Where that fails nothing
/// is left. Faults: `store-exists`, `backup-differs` and those of opening.
Result<Store> join_clinic(const std::filesystem::path& path, const std::filesystem::path& exchange,
                          const std::string& user, std::string_view passphrase,
                          const StoreOptions& options = {});

}  // namespace evenfall
