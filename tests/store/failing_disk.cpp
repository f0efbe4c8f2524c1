// SPDX-License-Identifier: GPL-3.0-or-later
#include "failing_disk.h"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace evenfall {

namespace {

/// The state is the process's, as SQLite's list of disks is.
struct State {
    std::optional<Trouble> trouble;
    int call = 0;
    int left = 0;
    int times = 0;
    bool failed = false;

    bool fails(bool concerned) {
        if (!concerned || --left > 0 || left <= -times) return false;
        return failed = true;
    }
};
State now;

bool is_dark() {
    return now.trouble == Trouble::power_cut && now.failed;
}

bool goes_dark() {
    return now.fails(now.trouble == Trouble::power_cut);
}

sqlite3_vfs* real = nullptr;
sqlite3_vfs ours;
sqlite3_io_methods methods;

/// Our file, with the real one behind it in the same allocation.
struct File {
    sqlite3_file base;
    sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(this) + kOffset); }
    static constexpr std::size_t kOffset = 64;
};
static_assert(sizeof(File) <= File::kOffset);

sqlite3_file* real_of(sqlite3_file* file) {
    return reinterpret_cast<File*>(file)->real();
}

/// What a file held when it was last synced, and what was done to it since.
struct Unsynced {
    struct Write {
        sqlite3_int64 at = 0;
        std::string bytes;
        bool truncates = false;  ///< to `at`
    };
    std::string synced;
    std::vector<Write> since;
};
std::map<sqlite3_file*, Unsynced> open_files;

/// SQLite reads and writes at most 128 KiB less one byte at a time.
constexpr std::size_t kPart = 65'536;

std::string content_of(sqlite3_file* behind) {
    sqlite3_int64 size = 0;
    behind->pMethods->xFileSize(behind, &size);
    std::string content(static_cast<std::size_t>(size), '\0');
    for (std::size_t at = 0; at < content.size(); at += kPart)
        behind->pMethods->xRead(behind, content.data() + at,
                                static_cast<int>(std::min(kPart, content.size() - at)),
                                static_cast<sqlite3_int64>(at));
    return content;
}

/// What is on the disk after the power went: of the writes since the last sync, sector by sector, some.
std::string after_the_cut(const Unsynced& file, std::mt19937& random) {
    constexpr std::size_t sector = 512;
    std::string content = file.synced;
    for (const Unsynced::Write& each : file.since) {
        if (each.truncates) {
            if (random() % 2 == 0) content.resize(static_cast<std::size_t>(each.at));
            continue;
        }
        for (std::size_t from = 0; from < each.bytes.size();) {
            const std::size_t at = static_cast<std::size_t>(each.at) + from;
            const std::size_t count = std::min(each.bytes.size() - from, sector - at % sector);
            if (random() % 2 == 0) {
                content.resize(std::max(content.size(), at + count));
                content.replace(at, count, each.bytes, from, count);
            }
            from += count;
        }
    }
    return content;
}

/// Leaves a file as the power cut leaves it.
void lay_dark(sqlite3_file* file) {
    std::mt19937 random(static_cast<unsigned>(now.call));
    const std::string content = after_the_cut(open_files[file], random);
    sqlite3_file* behind = real_of(file);
    behind->pMethods->xTruncate(behind, 0);
    for (std::size_t at = 0; at < content.size(); at += kPart)
        behind->pMethods->xWrite(behind, content.data() + at,
                                 static_cast<int>(std::min(kPart, content.size() - at)),
                                 static_cast<sqlite3_int64>(at));
}

int close_file(sqlite3_file* file) {
    if (is_dark()) lay_dark(file);
    open_files.erase(file);
    return real_of(file)->pMethods->xClose(real_of(file));
}

int read_file(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
    if (is_dark()) return SQLITE_IOERR_READ;
    if (now.fails(now.trouble == Trouble::read_error)) return SQLITE_IOERR_READ;
    return real_of(file)->pMethods->xRead(real_of(file), to, size, at);
}

int write_file(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    if (goes_dark()) return SQLITE_IOERR_WRITE;
    if (now.trouble == Trouble::power_cut)
        open_files[file].since.push_back({at, std::string(static_cast<const char*>(from), size), false});
    const bool concerned = now.trouble == Trouble::write_error || now.trouble == Trouble::short_write ||
                           now.trouble == Trouble::full;
    if (!now.fails(concerned)) return real_of(file)->pMethods->xWrite(real_of(file), from, size, at);
    if (now.trouble == Trouble::short_write)
        real_of(file)->pMethods->xWrite(real_of(file), from, size / 2, at);
    return now.trouble == Trouble::full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
    if (goes_dark()) return SQLITE_IOERR_TRUNCATE;
    if (now.trouble == Trouble::power_cut) open_files[file].since.push_back({size, {}, true});
    return real_of(file)->pMethods->xTruncate(real_of(file), size);
}

int sync_file(sqlite3_file* file, int flags) {
    if (now.fails(now.trouble == Trouble::sync_error)) return SQLITE_IOERR_FSYNC;
    if (now.fails(now.trouble == Trouble::lost_sync)) return SQLITE_OK;
    if (goes_dark()) return SQLITE_IOERR_FSYNC;
    const int code = real_of(file)->pMethods->xSync(real_of(file), flags);
    if (now.trouble == Trouble::power_cut && code == SQLITE_OK)
        open_files[file] = {content_of(real_of(file)), {}};
    return code;
}

int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
    return real_of(file)->pMethods->xFileSize(real_of(file), size);
}

int lock_file(sqlite3_file* file, int level) {
    return real_of(file)->pMethods->xLock(real_of(file), level);
}

int unlock_file(sqlite3_file* file, int level) {
    return real_of(file)->pMethods->xUnlock(real_of(file), level);
}

int check_reserved(sqlite3_file* file, int* out) {
    return real_of(file)->pMethods->xCheckReservedLock(real_of(file), out);
}

int control_file(sqlite3_file* file, int what, void* argument) {
    return real_of(file)->pMethods->xFileControl(real_of(file), what, argument);
}

int sector_size(sqlite3_file* file) {
    return real_of(file)->pMethods->xSectorSize(real_of(file));
}

int characteristics(sqlite3_file* file) {
    return real_of(file)->pMethods->xDeviceCharacteristics(real_of(file));
}

int open_file(sqlite3_vfs*, sqlite3_filename name, sqlite3_file* file, int flags, int* out_flags) {
    file->pMethods = nullptr;
    sqlite3_file* behind = reinterpret_cast<File*>(file)->real();
    const int code = real->xOpen(real, name, behind, flags, out_flags);
    if (behind->pMethods != nullptr) file->pMethods = &methods;
    if (now.trouble == Trouble::power_cut && behind->pMethods != nullptr)
        open_files[file] = {content_of(behind), {}};
    return code;
}

/// In the dark nothing is deleted: names in a folder are as they were.
int delete_file(sqlite3_vfs*, const char* name, int sync_folder) {
    return is_dark() ? SQLITE_IOERR_DELETE : real->xDelete(real, name, sync_folder);
}

}  // namespace

FailingDisk::FailingDisk() {
    real = sqlite3_vfs_find(nullptr);
    ours = *real;
    ours.zName = "failing-disk";
    ours.szOsFile = static_cast<int>(File::kOffset) + real->szOsFile;
    ours.xOpen = open_file;
    ours.xDelete = delete_file;
    // Version 1 has no shared memory: the store, which holds its file alone, needs none.
    methods = {
        1,         close_file,  read_file,      write_file,   truncate_file, sync_file,       size_of_file,
        lock_file, unlock_file, check_reserved, control_file, sector_size,   characteristics, nullptr,
        nullptr,   nullptr,     nullptr,        nullptr,      nullptr};
    sqlite3_vfs_register(&ours, 1);
}

FailingDisk::~FailingDisk() {
    mend();
    sqlite3_vfs_unregister(&ours);
    sqlite3_vfs_register(real, 1);
}

void FailingDisk::fail_at(Trouble trouble, int call, int times) {
    now = {trouble, call, call, times, false};
}

void FailingDisk::mend() {
    now.trouble.reset();
}

bool FailingDisk::has_failed() const {
    return now.failed;
}

}  // namespace evenfall
