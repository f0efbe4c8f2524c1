// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/exchange_file.h"

#include <cerrno>

#include "store/backup_run.h"
#include "store/files.h"
#include "store/logs.h"

namespace evenfall {

namespace {

/// Puts a proved copy of the exchange file at `path`: complete, or not at all.
Result<Done> lay_down(const std::filesystem::path& exchange, const std::filesystem::path& path) {
    return guarded<Done>([&]() -> Result<Done> {
        check_at_rest(exchange);
        const std::filesystem::path fresh = path.string() + ".joining";
        remove_store_files(fresh);
        struct Sweep {
            const std::filesystem::path& fresh;
            ~Sweep() { remove_store_files(fresh); }  // where it was put in place nothing is left to remove
        } const sweep{fresh};
        copy_private(exchange, fresh);
        if (auto proved = prove_file(fresh); !proved) return proved.faults();
        if (is_there(path)) return fault_of_errno(EEXIST, path);
        move_file(fresh, path);
        sync_to_disk(path);
        return Done{};
    });
}

}  // namespace

Result<Done> write_exchange(Store& store, const std::filesystem::path& to, bool replace) {
    auto run = BackupRun::begin(store, to, {BackupRun::For::exchange, replace});
    if (!run) return run.faults();
    for (bool done = false; !done;) {
        const auto step = (*run)->step();
        if (!step) return step.faults();
        done = *step;
    }
    if (auto proved = (*run)->proof()(); !proved) return proved.faults();
    return Done{};
}

Result<Store> join_clinic(const std::filesystem::path& path, const std::filesystem::path& exchange,
                          const std::string& user, std::string_view passphrase, const StoreOptions& options) {
    crypto::ready();
    if (is_there(path)) return fault_of_errno(EEXIST, path);
    if (auto laid = lay_down(exchange, path); !laid) {
        Faults faults = laid.faults();
        if (!is_there(path.has_parent_path() ? path.parent_path() : "."))
            faults.front().id = "store-no-such-folder";
        return faults;
    }
    auto store = Store::open(path, user, passphrase, options);
    if (!store) remove_store_files(path);
    return store;
}

}  // namespace evenfall
