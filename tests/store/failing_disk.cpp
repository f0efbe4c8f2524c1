// SPDX-License-Identifier: GPL-3.0-or-later
#include "failing_disk.h"

#include <cstddef>
#include <cstring>
#include <optional>

namespace evenfall {

namespace {

/// The state is the process's, as SQLite's list of disks is.
struct State {
    std::optional<Trouble> trouble;
    int left = 0;
    int times = 0;
    bool failed = false;

    bool fails(bool concerned) {
        if (!concerned || --left > 0 || left <= -times) return false;
        return failed = true;
    }
};
State now;

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

int close_file(sqlite3_file* file) {
    return real_of(file)->pMethods->xClose(real_of(file));
}

int read_file(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
    if (now.fails(now.trouble == Trouble::read_error)) return SQLITE_IOERR_READ;
    return real_of(file)->pMethods->xRead(real_of(file), to, size, at);
}

int write_file(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    const bool concerned = now.trouble == Trouble::write_error || now.trouble == Trouble::short_write ||
                           now.trouble == Trouble::full;
    if (!now.fails(concerned)) return real_of(file)->pMethods->xWrite(real_of(file), from, size, at);
    if (now.trouble == Trouble::short_write)
        real_of(file)->pMethods->xWrite(real_of(file), from, size / 2, at);
    return now.trouble == Trouble::full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
    return real_of(file)->pMethods->xTruncate(real_of(file), size);
}

int sync_file(sqlite3_file* file, int flags) {
    if (now.fails(now.trouble == Trouble::sync_error)) return SQLITE_IOERR_FSYNC;
    return real_of(file)->pMethods->xSync(real_of(file), flags);
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
    return code;
}

}  // namespace

FailingDisk::FailingDisk() {
    real = sqlite3_vfs_find(nullptr);
    ours = *real;
    ours.zName = "failing-disk";
    ours.szOsFile = static_cast<int>(File::kOffset) + real->szOsFile;
    ours.xOpen = open_file;
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
    now = {trouble, call, times, false};
}

void FailingDisk::mend() {
    now.trouble.reset();
}

bool FailingDisk::has_failed() const {
    return now.failed;
}

}  // namespace evenfall
