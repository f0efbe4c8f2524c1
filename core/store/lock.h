// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>

#include "units/result.h"

namespace evenfall {

/// Holds a store for one running copy: an advisory lock on a side file (`<store>.lock`), which also says who
/// holds it. Released with the object, and by the system when the process ends in whatever way.
class FileLock {
  public:
    FileLock() = default;
    /// Faults: `store-in-use` (args program, host, user), `store-read-only`, `store-no-permission`,
    /// `store-disk-full`, `store-disk-failed`.
    static Result<FileLock> take(const std::filesystem::path& store);

    FileLock(FileLock&& other) noexcept;
    FileLock& operator=(FileLock&& other) noexcept;
    FileLock(const FileLock&) = delete;
    FileLock& operator=(const FileLock&) = delete;
    ~FileLock();

  private:
    explicit FileLock(int descriptor) : descriptor_(descriptor) {}
    int descriptor_ = -1;
};

/// Makes an empty file that only its owner can read, and never replaces another. The fault, if any.
std::optional<Fault> make_private_file(const std::filesystem::path& path);
/// Removes a store that could not be finished, with what SQLite laid beside it.
void remove_store_files(const std::filesystem::path& path);

/// The fault that a system's error number stands for, about `place`.
Fault fault_of_errno(int error, const std::filesystem::path& place);

}  // namespace evenfall
