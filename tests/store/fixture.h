// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sqlite3.h>
#include <unistd.h>

#include "store/store.h"

namespace evenfall {

inline const std::string kPassphrase = "twelve quiet herons";

/// Passphrase keys at the least cost, so that tests are quick; a clock that moves a second at each look.
inline StoreOptions quick_options(std::int64_t start = 1'800'000'000'000'000) {
    StoreOptions options;
    options.kdf = crypto::Kdf::least();
    options.now = [start]() mutable { return start += 1'000'000; };
    return options;
}

inline Event event_of(PatientId patient, std::string kind, nlohmann::json body) {
    return {{}, std::move(patient), std::move(kind), 1, Body(std::move(body))};
}

inline Event note(const PatientId& patient, const std::string& text) {
    return event_of(patient, "note-added", {{"text", text}});
}

/// All bytes of a file, as whoever finds it would see them.
inline std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

/// The fault's id, or "" where there is none, so that a test's failure shows it.
template <class T>
std::string fault_id(const Result<T>& result) {
    return result ? std::string() : result.faults().front().id;
}

/// A folder of its own for each test.
class StoreTest : public testing::Test {
  protected:
    StoreTest() {
        std::string made = (std::filesystem::temp_directory_path() / "evenfall-store-XXXXXX").string();
        if (mkdtemp(made.data()) == nullptr) throw std::runtime_error("no folder for the test");
        folder = made;
        path = folder / "clinic.evenfall";
    }
    ~StoreTest() override {
        std::error_code ignored;
        std::filesystem::permissions(folder, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(folder, ignored);
    }

    /// A store with a first prescriber, "Ada Prescriber".
    Store made(StoreOptions options = quick_options()) {
        auto created = Store::create(path, "Hill Street", {"Ada Prescriber", Role::prescriber, "RX-1"},
                                     kPassphrase, options);
        if (!created) throw std::runtime_error("not created: " + created.faults().front().id);
        recovery_key = created->recovery_key;
        return std::move(created->store);
    }
    Result<Store> opened(StoreOptions options = quick_options(1'900'000'000'000'000)) {
        return Store::open(path, "Ada Prescriber", kPassphrase, options);
    }

    /// Changes the file behind the store's back.
    void meddle(const std::string& sql) const { meddle_with(path, sql); }
    static void meddle_with(const std::filesystem::path& file, const std::string& sql) {
        sqlite3* db = nullptr;
        ASSERT_EQ(sqlite3_open(file.c_str(), &db), SQLITE_OK);
        char* says = nullptr;
        EXPECT_EQ(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &says), SQLITE_OK)
            << sql << ": " << (says ? says : "");
        sqlite3_free(says);
        sqlite3_close(db);
    }

    std::filesystem::path folder;
    std::filesystem::path path;
    std::string recovery_key;
};

}  // namespace evenfall
