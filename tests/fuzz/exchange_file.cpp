// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>
#include <fstream>

#include <unistd.h>

#include "fuzz/support.h"
#include "store/store.h"

using namespace evenfall;

namespace {

namespace fs = std::filesystem;

/// A folder in memory for the files that the store must find by name.
struct Place {
    fs::path folder;
    Place() {
        const fs::path base = fs::exists("/dev/shm") ? fs::path("/dev/shm") : fs::temp_directory_path();
        std::string made = (base / "evenfall-fuzz-XXXXXX").string();
        fuzz::promise(mkdtemp(made.data()) != nullptr);
        folder = made;
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    ~Place() {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    }
};

Store fresh_store(const fs::path& ours) {
    for (const char* end : {"", "-wal", "-shm"}) fs::remove(ours.string() + end);
    fs::copy_file(fs::path(EVENFALL_SOURCE_DIR) / "tests/store/samples/format-1.evenfall", ours);
    auto store = Store::open(ours, "Ada Prescriber", "twelve quiet herons");
    fuzz::promise(store.ok());
    return std::move(*store);
}

}  // namespace

/// A file from the other laptop, or a back-up, damaged or made by an attacker: it is taken up whole and
/// proved, or refused; either way our own store stays sound.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const Place place;
    static std::optional<Store> store;
    const fs::path ours = place.folder / "clinic.evenfall";
    const fs::path theirs = place.folder / "stick.evenfall";
    if (!store) store.emplace(fresh_store(ours));
    std::ofstream(theirs, std::ios::binary)
        .write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
    const auto merged = store->merge(theirs);
    if (merged && (merged->gained > 0 || !merged->forks.empty())) {
        const auto report = store->check();
        fuzz::promise(report.ok() && report->whole());
        store.reset();
    }
    return 0;
}
