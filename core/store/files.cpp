// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/files.h"

#include <cerrno>

#include <fcntl.h>
#include <unistd.h>

#include "store/lock.h"
#include "store/sqlite.h"

namespace evenfall {

bool is_there(const std::filesystem::path& path) {
    std::error_code ignored;
    return std::filesystem::exists(std::filesystem::symlink_status(path, ignored));
}

void copy_private(const std::filesystem::path& from, const std::filesystem::path& to) {
    if (auto fault = make_private_file(to)) throw sql::Failure{*fault};
    std::error_code error;
    std::filesystem::copy_file(from, to, std::filesystem::copy_options::overwrite_existing, error);
    if (!error)
        std::filesystem::permissions(
            to, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write, error);
    if (error) throw sql::Failure{fault_of_errno(error.value(), to)};
    sync_to_disk(to);
}

void move_file(const std::filesystem::path& from, const std::filesystem::path& to) {
    std::error_code error;
    std::filesystem::rename(from, to, error);
    if (error) throw sql::Failure{fault_of_errno(error.value(), from)};
}

void sync_to_disk(const std::filesystem::path& path) {
    for (const std::filesystem::path& each : {path, path.has_parent_path() ? path.parent_path() : "."}) {
        const int descriptor = ::open(each.c_str(), O_RDONLY | O_CLOEXEC);
        const bool synced = descriptor >= 0 && ::fsync(descriptor) == 0;
        const int error = errno;
        if (descriptor >= 0) ::close(descriptor);
        if (!synced) throw sql::Failure{fault_of_errno(error, each)};
    }
}

}  // namespace evenfall
