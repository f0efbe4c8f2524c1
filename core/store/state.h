// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <deque>
#include <mutex>
#include <unordered_map>

#include "store/format.h"
#include "store/lock.h"
#include "store/row.h"
#include "store/stand_in.h"
#include "store/store.h"

// What the parts of the store share. Private to this room.

namespace evenfall {

/// One data key's subkeys.
struct EpochKeys {
    SecretBytes data;
    SecretBytes rows;   ///< seals events
    SecretBytes apart;  ///< seals drafts and snapshots
    explicit EpochKeys(SecretBytes key);
};

/// What a passphrase (or the printed key) unlocks: the seeds of a user's two key pairs.
struct UserSecrets {
    SecretBytes signing_seed;
    SecretBytes box_seed;
    static UserSecrets random();
    Bytes id() const;  ///< 16 bytes, hash of the signing key: who has the key is the user
};

/// Where this copy's log ends, and the newest clock of all logs.
struct Tail {
    Bytes log;  ///< empty: the next append begins a log
    std::int64_t sequence = 0;
    Bytes hash;
    std::int64_t clock_seen = 0;
};

/// A user's secrets as the file keeps them, wrapped by a passphrase's key.
struct WrappedKeys {
    Bytes id;
    std::string name;
    Bytes salt;
    std::int64_t passes = 0;
    std::int64_t memory = 0;
    Bytes sealed;
    Bytes mark;
};

/// The wrapped keys of the user at the desk, where another thread may try a passphrase on them.
struct OwnKeys {
    std::mutex mutex;
    WrappedKeys keys;
};

/// Some rows, with what each says or what is wrong with it.
struct RowBatch {
    static constexpr std::size_t kMost = 32;
    std::array<Row, kMost> rows{};
    std::array<StoredEvent, kMost> events{};
    std::array<std::optional<Fault>, kMost> damage{};
    std::size_t count = 0;
};

struct StoreState {
    FileLock lock;  // before the database, so that it is let go after it
    sql::Database db;
    std::filesystem::path path;  ///< empty: in memory
    StoreOptions options;
    std::string name;
    Bytes clinic;
    Bytes founding_key;
    std::map<std::int64_t, EpochKeys> epochs;
    std::int64_t epoch = 1;
    SecretBytes name_key;  ///< hashes patients' ids and drafts' names
    UserSecrets secrets;
    SecretBytes signing;
    User user;
    std::shared_ptr<OwnKeys> own_keys = std::make_shared<OwnKeys>();
    Grants grants;
    std::optional<Tail> tail;
    std::unordered_map<Bytes, std::int64_t> numbers;  ///< last number of each patient in this copy's log
    std::deque<RowBatch> batches;  ///< those read last; kept, so that the next patient's use their memory

    explicit StoreState(sql::Database database) : db(std::move(database)) {}

    /// Whether the keys were forgotten. What needs one begins with `need_keys`, which throws `store-locked`.
    bool locked() const { return name_key.empty(); }
    void need_keys() const;
    void forget_keys();
    /// Takes a user's secrets, and every key that they open.
    void take_secrets(UserSecrets opened);

    Bytes patient_key(const PatientId& patient) const {
        need_keys();
        if (auto key = key_of_stand_in(patient)) return std::move(*key);
        return crypto::hash("patient " + patient, 16, name_key.view());
    }
    Bytes draft_key(std::string_view what) const {
        need_keys();
        return crypto::hash(std::string("draft ").append(what), 16, name_key.view());
    }
    /// Shows the newest wrapped keys to whoever proves a passphrase.
    void take_own_keys();
    const Tail& known_tail();
    std::int64_t next_number(const Bytes& patient, const Bytes& log);
    void take_epochs(const std::map<std::int64_t, SecretBytes>& keys);
};

/// What was found on reading one row.
struct Proved {
    std::optional<StoredEvent> event;
    std::optional<Fault> damage;
};

/// Memory that is used again from row to row.
struct ProofSpace {
    Bytes data;
    Bytes text;
};

/// Checks a row by itself: shape, hash, seal, text. `event` is what it says where no fault is returned.
std::optional<Fault> prove_into(StoredEvent& event, const Row& row, const Bytes& clinic,
                                const std::map<std::int64_t, EpochKeys>& epochs, ProofSpace& space);
/// The same for one row.
Proved prove(const Row& row, const Bytes& clinic, const std::map<std::int64_t, EpochKeys>& epochs);

/// A fault about one row.
Fault row_fault(const char* id, const Row& row, Args args = {});

/// The fold of the grants: each proved by its author's signature, the first by the founding key.
Grants read_grants(StoreState& state);
/// Verifies a row's own signature with its author's key.
bool signature_holds(const Row& row, const Grants& grants, const Bytes& founding_key);

/// What tells one place of a file from another: the machine and the file's number on its disk. A copy or a
/// restored back-up has another, and goes on under a log of its own. Empty in memory.
Bytes home_of(const std::filesystem::path& path);

/// Writes rows of one log for a user, all or nothing; `more` runs inside the same transaction.
std::vector<StoredEvent> write_events(StoreState& state, std::vector<Event> events,
                                      const std::function<void()>& more = {});

/// Wraps a user's secrets by a passphrase's key. Takes as long as the key's cost asks; for any thread. Throws
/// `store-no-memory`.
WrappedKeys wrap(const Bytes& clinic, const std::string& name, const UserSecrets& secrets,
                 std::string_view passphrase, crypto::Kdf kdf);
/// Keeps them in the file.
void keep_user(sql::Database& db, const WrappedKeys& row);
/// Gives a user the data key of an epoch.
void give_data_key(sql::Database& db, std::string_view user, std::int64_t epoch, const SecretBytes& key,
                   std::string_view box_public);
/// Opens a user's secrets. Throws `wrong` where the passphrase does not fit, `store-unknown-user`,
/// `store-damaged`.
UserSecrets unlock_user(sql::Database& db, const Bytes& clinic, const std::string& name,
                        std::string_view passphrase, const char* wrong);
/// The wrapped keys of a user; nothing where the file has none.
std::optional<WrappedKeys> wrapped_keys(sql::Database& db, std::string_view id);
/// Opens wrapped keys; nothing where the passphrase does not fit. Throws `store-damaged`, `store-no-memory`.
std::optional<UserSecrets> unwrap(const WrappedKeys& row, const Bytes& clinic, std::string_view passphrase);
/// Whether the row that keeps a user's keys is as it was written.
bool user_row_intact(sql::Database& db, const Bytes& id);
/// Takes a user's wrapped keys out of the file.
void forget_user(sql::Database& db, const UserId& id);
/// The data keys that a user was given.
std::map<std::int64_t, SecretBytes> data_keys_of(sql::Database& db, const UserSecrets& secrets);

/// Keeps a user's wrapped secrets, and gives them all data keys.
void keep_keys(StoreState& state, const WrappedKeys& keys, const UserSecrets& secrets);
/// Drops data keys that no closing announced (somebody else could have put them there), and takes the newest
/// one for what is written next. Throws `store-damaged` if the user lacks it.
void keep_announced_epochs(StoreState& state);

Event grant_event(const UserGrant& grant);
UserGrant grant_of(const UserSecrets& secrets, const NewUser& user, bool recovery);
/// Checks a new user's name and passphrase.
Faults faults_of(const NewUser& user, std::string_view passphrase);

/// The fault of a user who may not write events of a kind.
Fault may_not_write(const User& user, std::string_view kind);

/// Runs `act`, turning a failure thrown inside the room into faults.
template <class T, class Act>
Result<T> guarded(Act act) {
    try {
        return act();
    } catch (const sql::Failure& failure) {
        return failure.fault;
    } catch (const std::bad_alloc&) {
        return Fault{"store-no-memory", "", {}};
    }
}

}  // namespace evenfall
