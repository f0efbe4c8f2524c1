// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "store/store.h"

namespace evenfall {

/// A copy of a store that is made a part at a time, between other work of the store's thread. What is written
/// meanwhile goes into it too. Must not outlive its store. An unfinished one leaves no file behind.
class BackupRun {
  public:
    /// What the file is for. A back-up holds everything; an exchange file for the clinic's other laptops
    /// leaves out what is this laptop's alone: unfinished entries, and derived values kept to save work.
    enum class For { backup, exchange };
    /// Where `replace` is set, a file that stands there stays until the new one is proved, and then goes.
    struct How {
        For purpose = For::backup;
        bool replace = false;
    };

    /// Faults: `store-exists`, `store-no-such-folder`, and those of writing.
    static Result<std::unique_ptr<BackupRun>> begin(Store& store, const std::filesystem::path& to, How how);
    static Result<std::unique_ptr<BackupRun>> begin(Store& store, const std::filesystem::path& to) {
        return begin(store, to, How{});
    }
    BackupRun(const BackupRun&) = delete;
    BackupRun& operator=(const BackupRun&) = delete;
    ~BackupRun();

    /// Copies the next part; true once everything is copied and on the disk.
    Result<bool> step();
    int percent() const;

    /// After the last step: proves the file by itself, without keys: that it is whole, that each row is what
    /// was hashed and follows the row before it, and that its newest rows are the store's. It returns these,
    /// and the file then stands under its name.
    /// Long; for any thread; may outlive this. Fault: `backup-differs` (the file is then removed).
    std::function<Result<Heads>()> proof() const;

  private:
    struct Parts;
    explicit BackupRun(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

/// The newest rows of a file, after each of its rows was proved as far as that goes without keys. Faults:
/// `backup-differs` (args table: what is wrong), those of opening.
Result<Heads> prove_file(const std::filesystem::path& file);

}  // namespace evenfall
