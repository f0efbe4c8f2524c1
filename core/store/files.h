// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

// How whole files of a store are copied and moved. Private to this room; all throw the disk's fault.

namespace evenfall {

/// Whether anything stands at a path, a dangling link too.
bool is_there(const std::filesystem::path& path);
/// Copies into a new file that only its owner can read, and brings it onto the disk.
void copy_private(const std::filesystem::path& from, const std::filesystem::path& to);
/// Moves a file; what stands at `to` is replaced.
void move_file(const std::filesystem::path& from, const std::filesystem::path& to);
/// Brings a file, and then its name in the folder, onto the disk.
void sync_to_disk(const std::filesystem::path& path);

}  // namespace evenfall
