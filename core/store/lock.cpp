// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/lock.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <string>
#include <utility>

#include <fcntl.h>
#include <nlohmann/json.hpp>
#include <pwd.h>
#include <sys/file.h>
#include <unistd.h>

namespace evenfall {

namespace {

std::string host_name() {
    std::array<char, 256> name{};
    return gethostname(name.data(), name.size() - 1) == 0 ? name.data() : "";
}

std::string account_name() {
    std::array<char, 4096> buffer{};
    passwd entry{};
    passwd* found = nullptr;
    getpwuid_r(geteuid(), &entry, buffer.data(), buffer.size(), &found);
    return found == nullptr ? std::to_string(geteuid()) : found->pw_name;
}

void say_who_holds(int descriptor) {
    const nlohmann::json holder{
        {"host", host_name()}, {"user", account_name()}, {"program", std::to_string(getpid())}};
    const std::string text = holder.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
    // The lock holds whether or not this can be written; only the sentence for a second copy would be poorer.
    if (ftruncate(descriptor, 0) == 0 && pwrite(descriptor, text.data(), text.size(), 0) < 0) return;
}

Fault held_by(int descriptor, const std::filesystem::path& store) {
    std::array<char, 1024> text{};
    const ssize_t read = pread(descriptor, text.data(), text.size() - 1, 0);
    const auto holder = nlohmann::json::parse(
        std::string(text.data(), read > 0 ? static_cast<std::size_t>(read) : 0), nullptr, false);
    Args args{{"host", "?"}, {"user", "?"}, {"program", "?"}};
    for (auto& [name, value] : args)
        if (holder.is_object() && holder.contains(name) && holder[name].is_string()) value = holder[name];
    return {"store-in-use", store.string(), args};
}

}  // namespace

Fault fault_of_errno(int error, const std::filesystem::path& place) {
    const char* id = "store-disk-failed";
    if (error == EROFS) id = "store-read-only";
    if (error == EACCES || error == EPERM) id = "store-no-permission";
    if (error == ENOENT || error == ENOTDIR) id = "store-no-such-file";
    if (error == ENOSPC || error == EDQUOT || error == EFBIG) id = "store-disk-full";
    if (error == EEXIST) id = "store-exists";
    return {id, place.string(), {{"says", std::strerror(error)}, {"code", std::to_string(error)}}};
}

std::optional<Fault> make_private_file(const std::filesystem::path& path) {
    const int descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (descriptor < 0) {
        Fault fault = fault_of_errno(errno, path);
        if (fault.id == "store-no-such-file") fault.id = "store-no-such-folder";
        return fault;
    }
    ::close(descriptor);
    return std::nullopt;
}

void remove_store_files(const std::filesystem::path& path) {
    std::error_code ignored;
    for (const char* end : {"", "-wal", "-shm", "-journal"})
        std::filesystem::remove(path.string() + end, ignored);
}

Result<FileLock> FileLock::take(const std::filesystem::path& store) {
    const std::filesystem::path side = store.string() + ".lock";
    const int descriptor = ::open(side.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (descriptor < 0) return fault_of_errno(errno, store);
    FileLock lock(descriptor);
    if (flock(descriptor, LOCK_EX | LOCK_NB) != 0) return held_by(descriptor, store);
    say_who_holds(descriptor);
    return lock;
}

FileLock::FileLock(FileLock&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {
}

FileLock& FileLock::operator=(FileLock&& other) noexcept {
    std::swap(descriptor_, other.descriptor_);
    return *this;
}

FileLock::~FileLock() {
    // The side file stays: deleting it would let two copies each hold a lock on a file of the same name.
    if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace evenfall
