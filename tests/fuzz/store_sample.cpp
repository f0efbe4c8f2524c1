// SPDX-License-Identifier: GPL-3.0-or-later
// Makes a store as this version writes it, with everything that a store can hold, and a second one as the
// other laptop of the clinic would bring it. Passphrase keys are at the least cost: nobody's records are in
// it.

#include <filesystem>
#include <iostream>

#include <nlohmann/json.hpp>

#include "store/store.h"

using namespace evenfall;

namespace {

namespace fs = std::filesystem;

constexpr const char* kPassphrase = "twelve quiet herons";

StoreOptions options_from(std::int64_t start) {
    StoreOptions options;
    options.kdf = crypto::Kdf::least();
    options.now = [start]() mutable { return start += 1'000'000; };
    return options;
}

Event note(const char* patient, const char* text) {
    return {{}, patient, "note-added", 1, Body(nlohmann::json{{"text", text}})};
}

bool fill(Store& store) {
    const auto nurse = store.grant({"Cleo Nurse", Role::nurse, "N-7"}, kPassphrase);
    const auto other = store.grant({"Dan Nurse", Role::nurse, ""}, kPassphrase);
    return nurse && other && store.append({note("p1", "first"), note("p2", "second")}) &&
           store.put_draft("p1\ncheck-in", "half") && store.put_snapshot("line", "kept") &&
           store.close_user(other->grant.id) && store.append({note("p1", "under the new key")}) &&
           store.note_opened("p1");
}

bool make(const fs::path& folder) {
    const fs::path first = folder / "format-1.evenfall";
    const fs::path second = folder / "format-1-other.evenfall";
    auto made = Store::create(first, "Hill Street", {"Ada Prescriber", Role::prescriber, "RX-1"}, kPassphrase,
                              options_from(1'800'000'000'000'000));
    if (!made || !fill(made->store) || !made->store.backup(second)) return false;
    std::cout << made->recovery_key << '\n';
    auto other = Store::open(second, "Cleo Nurse", kPassphrase, options_from(1'810'000'000'000'000));
    return other && other->append({note("p2", "from the other laptop")}).ok();
}

}  // namespace

int main(int count, char** words) {
    const bool made = count == 2 && make(words[1]);
    if (!made) std::cerr << "usage: evenfall_store_sample FOLDER (an empty one)\n";
    return made ? 0 : 1;
}
