// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sqlite3.h>

namespace evenfall {

/// What goes wrong at one call to the disk, and at every later one until `mend`. A lost sync says that it was
/// done. A power cut ends everything at a write or sync; of what was written since each file's last sync some
/// sectors are there afterwards and some are not, as the call's number has it.
enum class Trouble { write_error, short_write, full, sync_error, lost_sync, read_error, power_cut };

/// A layer between SQLite and the disk that fails from the n-th call of a sort on. While it lives, SQLite
/// opens files through it; files must be closed before it goes.
class FailingDisk {
  public:
    FailingDisk();
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;
    ~FailingDisk();

    /// Calls of the trouble's sort are counted from now; the `call`-th (from 1) and the `times`-1 after it
    /// fail.
    void fail_at(Trouble trouble, int call, int times);
    void mend();
    /// Whether anything failed since `fail_at`.
    bool has_failed() const;
};

}  // namespace evenfall
