// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/state.h"

namespace evenfall {

namespace {

constexpr std::size_t kSeedBytes = 32;
constexpr std::size_t kSaltBytes = 16;
/// Costs above these are no passphrase key of ours: a changed file could else ask for all memory there is.
constexpr std::int64_t kMostPasses = 64;
constexpr std::int64_t kMostMemory = 4LL << 30;
/// A floor, not advice: the set-up page says what makes a good passphrase.
constexpr std::size_t kShortestPassphrase = 8;

/// Tells a damaged row from a wrong passphrase; it protects against nothing else.
Bytes mark_of(const WrappedKeys& row) {
    Bytes data = "evenfall-user-mark-1" + row.id + row.salt;
    append_number(data, row.passes);
    append_number(data, row.memory);
    return crypto::hash(data + row.sealed + row.name, 16);
}

Bytes user_data(const Bytes& clinic, const Bytes& id) {
    return "evenfall-user-1" + clinic + id;
}

std::size_t code_points(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char each) {
        return (static_cast<unsigned char>(each) & 0xC0) != 0x80;
    }));
}

sql::Failure failure(const char* id, const std::string& name) {
    return {Fault{id, name.empty() ? "recovery" : name, {{"name", name}, {"what", "users"}}}};
}

constexpr std::string_view kUserColumns = "SELECT id, name, salt, passes, memory, sealed, mark FROM users ";

WrappedKeys read_user(const sql::Statement& row) {
    return {Bytes(row.bytes(0)), std::string(row.bytes(1)), Bytes(row.bytes(2)), row.integer(3),
            row.integer(4),      Bytes(row.bytes(5)),       Bytes(row.bytes(6))};
}

bool is_intact(const WrappedKeys& row) {
    return row.salt.size() == kSaltBytes && row.passes >= 1 && row.passes <= kMostPasses &&
           row.memory >= 8192 && row.memory <= kMostMemory && mark_of(row) == row.mark;
}

/// All users of a name: two laptops may each have granted one before they met.
std::vector<WrappedKeys> find_users(sql::Database& db, const std::string& name) {
    sql::Use read = db.prepared(std::string(kUserColumns) + "WHERE name=?1");
    std::vector<WrappedKeys> rows;
    read->bind_text(1, name);
    while (read->step()) rows.push_back(read_user(*read));
    if (rows.empty()) throw failure("store-unknown-user", name);
    return rows;
}

SecretBytes key_of(std::string_view passphrase, const WrappedKeys& row) {
    auto key = crypto::passphrase_key(
        passphrase, row.salt,
        {static_cast<std::uint64_t>(row.passes), static_cast<std::uint64_t>(row.memory)});
    if (!key) throw failure("store-no-memory", row.name);
    return std::move(*key);
}

}  // namespace

EpochKeys::EpochKeys(SecretBytes key)
    : data(std::move(key)), rows(crypto::subkey(data, 1)), apart(crypto::subkey(data, 2)) {
}

UserSecrets UserSecrets::random() {
    return {crypto::random_secret(kSeedBytes), crypto::random_secret(kSeedBytes)};
}

Bytes UserSecrets::id() const {
    return crypto::hash(crypto::signing_public(signing_seed), 16);
}

WrappedKeys wrap(const Bytes& clinic, const std::string& name, const UserSecrets& secrets,
                 std::string_view passphrase, crypto::Kdf kdf) {
    WrappedKeys row{secrets.id(),
                    name,
                    crypto::random_bytes(kSaltBytes),
                    static_cast<std::int64_t>(kdf.passes),
                    static_cast<std::int64_t>(kdf.memory),
                    {},
                    {}};
    SecretBytes both(2 * kSeedBytes);
    std::copy_n(secrets.signing_seed.data(), kSeedBytes, both.data());
    std::copy_n(secrets.box_seed.data(), kSeedBytes, both.data() + kSeedBytes);
    row.sealed = crypto::seal(both.view(), user_data(clinic, row.id), key_of(passphrase, row));
    row.mark = mark_of(row);
    return row;
}

void keep_user(sql::Database& db, const WrappedKeys& row) {
    sql::Use write = db.prepared(
        "INSERT OR REPLACE INTO users(id, name, salt, passes, memory, sealed, mark) VALUES(?1, ?2, ?3, ?4, "
        "?5, ?6, ?7)");
    write->bind_blob(1, row.id)
        .bind_text(2, row.name)
        .bind_blob(3, row.salt)
        .bind(4, row.passes)
        .bind(5, row.memory);
    write->bind_blob(6, row.sealed).bind_blob(7, row.mark).step();
}

void give_data_key(sql::Database& db, std::string_view user, std::int64_t epoch, const SecretBytes& key,
                   std::string_view box_public) {
    const auto sealed = crypto::box_seal(key, box_public);
    if (!sealed) return;  // granted with a key that is none: nothing can be given, and they cannot unlock
    sql::Use write = db.prepared("INSERT OR REPLACE INTO data_keys(user, epoch, sealed) VALUES(?1, ?2, ?3)");
    write->bind_blob(1, user).bind(2, epoch).bind_blob(3, *sealed).step();
}

std::optional<UserSecrets> unwrap(const WrappedKeys& row, const Bytes& clinic, std::string_view passphrase) {
    if (!is_intact(row)) throw failure("store-damaged", row.name);
    const auto both = crypto::open_secret(row.sealed, user_data(clinic, row.id), key_of(passphrase, row));
    if (!both) return std::nullopt;
    if (both->size() != 2 * kSeedBytes) throw failure("store-damaged", row.name);
    UserSecrets secrets{both->part(0, kSeedBytes), both->part(kSeedBytes, kSeedBytes)};
    if (secrets.id() != row.id) throw failure("store-damaged", row.name);
    return secrets;
}

UserSecrets unlock_user(sql::Database& db, const Bytes& clinic, const std::string& name,
                        std::string_view passphrase, const char* wrong) {
    for (const WrappedKeys& row : find_users(db, name))
        if (auto secrets = unwrap(row, clinic, passphrase)) return std::move(*secrets);
    throw failure(wrong, name);
}

std::optional<WrappedKeys> wrapped_keys(sql::Database& db, std::string_view id) {
    sql::Use read = db.prepared(std::string(kUserColumns) + "WHERE id=?1");
    if (!read->bind_blob(1, id).step()) return std::nullopt;
    return read_user(*read);
}

bool user_row_intact(sql::Database& db, const Bytes& id) {
    const auto row = wrapped_keys(db, id);
    return row && is_intact(*row);
}

std::map<std::int64_t, SecretBytes> data_keys_of(sql::Database& db, const UserSecrets& secrets) {
    const Bytes id = secrets.id();
    std::map<std::int64_t, SecretBytes> keys;
    sql::Use read = db.prepared("SELECT epoch, sealed FROM data_keys WHERE user=?1");
    read->bind_blob(1, id);
    while (read->step()) {
        // A key that was sealed to somebody else, or damaged, is left out: what it is needed for says so.
        auto key = crypto::box_open(read->bytes(1), secrets.box_seed);
        if (key && key->size() == crypto::kKeyBytes) keys.emplace(read->integer(0), std::move(*key));
    }
    return keys;
}

UserGrant grant_of(const UserSecrets& secrets, const NewUser& user, bool recovery) {
    return {to_hex(secrets.id()),
            user.name,
            user.role,
            user.licence,
            to_hex(crypto::signing_public(secrets.signing_seed)),
            to_hex(crypto::box_public(secrets.box_seed)),
            recovery};
}

Faults faults_of(const NewUser& user, std::string_view passphrase) {
    Faults faults;
    if (user.name.find_first_not_of(" \t\r\n") == std::string::npos)
        faults.push_back({"user-no-name", "name", {}});
    if (const std::size_t length = code_points(passphrase); length < kShortestPassphrase)
        faults.push_back(
            {"passphrase-too-short",
             "passphrase",
             {{"found", std::to_string(length)}, {"expected", std::to_string(kShortestPassphrase)}}});
    return faults;
}

}  // namespace evenfall
