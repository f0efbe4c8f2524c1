// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/access.h"
#include "record/event.h"
#include "record/users.h"
#include "store/check_report.h"
#include "store/crypto.h"
#include "store/tries.h"
#include "units/result.h"

namespace evenfall {

struct StoreState;  // private to this room

/// The machine's clock, in microseconds since 1970 (UTC). An argument, so that tests and the demo can set it.
using Clock = std::function<std::int64_t()>;
Clock machine_clock();

struct NewUser {
    std::string name;  ///< by which they unlock; one open user of a name at a time
    Role role = Role::prescriber;
    std::string licence;
};

struct StoreOptions {
    Clock now = machine_clock();
    crypto::Kdf kdf;   ///< cost of new passphrase keys; existing ones keep the cost that they were made with
    TryDelays delays;  ///< after wrong passphrases; the rule `unlock-delay`
    std::int64_t max_pages = 0;  ///< the file may grow to so many pages of 4 096 bytes; 0: as the disk allows
};

/// What two stores compare: the newest row of each log.
struct Head {
    std::int64_t sequence = 0;
    std::string hash;  ///< 64 hexadecimal digits
    bool operator==(const Head&) const = default;
};
using Heads = std::map<LogId, Head>;

/// What can be read of damaged events, and where the damage lies.
struct Salvage {
    std::vector<StoredEvent> events;
    Faults damage;
};

/// The newest row of a log as it is printed, and typed back later: "1a2b3c4d-1532-0123456789abcdef".
struct Mark {
    std::string log;  ///< the log's first 8 digits
    std::int64_t sequence = 0;
    std::string hash;  ///< the row's first 16 digits
    bool operator==(const Mark&) const = default;
};
std::string print_mark(const LogId& log, const Head& head);
/// Fault: `mark-shape`.
Result<Mark> read_mark(std::string_view typed);

/// What a restore would change.
struct RestorePreview {
    struct Count {
        std::int64_t gained = 0;  ///< entries that only the back-up has
        std::int64_t lost = 0;    ///< entries that only the store has
        bool operator==(const Count&) const = default;
    };
    std::map<PatientId, Count> patients;  ///< empty id: the clinic's own; `kAccessLog`: who opened whom
    std::map<LogId, Count> logs;
    std::map<UserId, Count> authors;
    std::int64_t unreadable = 0;  ///< rows that differ, and of which it cannot be said whose they are
    Heads ours;
    Heads theirs;
};

/// Puts a back-up in the place of a store that nobody has open (or that is lost), after the back-up was
/// proved. What stood there is kept beside it; its name is returned, empty where nothing stood. Faults:
/// `store-in-use`, `backup-differs`, those of opening and of writing; nothing is changed then.
Result<std::filesystem::path> restore_store(const std::filesystem::path& backup,
                                            const std::filesystem::path& store, const std::string& stamp);

/// Whose rows came after an earlier state of the logs.
struct Changed {
    Heads heads;  ///< the state now
    bool follows =
        true;  ///< false: a head of the earlier state is no row of this store; nothing else is known
    bool clinic = false;  ///< the clinic's own events: settings, and who may write
    bool others = false;  ///< patients that were not asked about
    std::vector<PatientId> patients;
};

/// What `Store::merge` did.
struct MergeReport {
    std::int64_t gained = 0;  ///< rows taken up
    std::map<LogId, std::int64_t>
        forks;                        ///< log and the sequence from which the other file tells another story
    std::vector<PatientId> patients;  ///< whose records must be folded anew; empty id: the clinic's
};

/// A clinic's sealed, signed, append-only logs in one SQLite file, opened by one user. One copy of the
/// program holds a file at a time. Not thread-safe: one thread owns it. Moves, does not copy; closes with its
/// life, and then keys are wiped.
///
/// Faults that any function may return: `store-disk-full`, `store-read-only`, `store-disk-failed`,
/// `store-no-memory`, `store-damaged` (place: log and sequence, or the table). A function that fails has
/// changed nothing.
class Store {
  public:
    struct Created;

    /// Makes a store with its first prescriber and its recovery key, which is returned once and kept nowhere.
    /// Faults: `store-exists`, `store-no-such-folder`, `store-no-permission`, `store-read-only`,
    /// `store-in-use`, `passphrase-too-short`, `user-no-name`.
    static Result<Created> create(const std::filesystem::path& path, const std::string& clinic,
                                  const NewUser& first, std::string_view passphrase,
                                  const StoreOptions& options = {});

    /// Faults: `store-no-such-file`, `store-no-permission`, `store-read-only`, `store-not-a-store`,
    /// `store-newer-version`, `store-strange-object`, `store-in-use` (args host, user, program),
    /// `store-unknown-user`, `store-wrong-passphrase`, `store-wait` (args seconds: too many wrong tries),
    /// `store-damaged`.
    static Result<Store> open(const std::filesystem::path& path, const std::string& user,
                              std::string_view passphrase, const StoreOptions& options = {});

    /// Opens the data with the printed key. It may read, and grant a prescriber; nothing else. Faults as
    /// `open`, and those of `read_recovery_key`; `store-wrong-recovery-key`.
    static Result<Store> open_with_recovery(const std::filesystem::path& path, std::string_view recovery_key,
                                            const StoreOptions& options = {});

    /// A store without a file, for the demo: random keys, no passphrase, else the same. Nothing of it stays.
    static Store in_memory(const std::string& clinic, const NewUser& first, const StoreOptions& options = {});

    Store(Store&&) noexcept;
    Store& operator=(Store&&) noexcept;
    ~Store();

    /// Who opened it. The recovery key's user has `grant.recovery`.
    const User& user() const;
    const std::string& clinic() const;  ///< the name given when it was created
    std::string clinic_id() const;      ///< 32 hexadecimal digits, from the founding key
    LogId log() const;                  ///< the log that this copy writes; empty until it has written

    /// Writes all events or none; they are on the disk when it returns. An empty event id is filled in.
    /// Faults: `user-may-not-write` (args kind, role), `event-no-kind`, `event-bad-id`, and those of
    /// `event_text`.
    Result<std::vector<StoredEvent>> append(std::vector<Event> events);

    /// Patients that have events, in any order. Where no row of somebody can be read an id stands for them.
    Result<std::vector<PatientId>> patients();
    /// A patient's events in the fold's order, each with its seal, its hash and its links checked, void ones
    /// marked. An unknown patient has none.
    Result<std::vector<StoredEvent>> read(const PatientId& patient);
    /// The clinic's own events: `read("")`.
    Result<std::vector<StoredEvent>> read_clinic() { return read({}); }
    /// As `read`, but passes over what is damaged and says so.
    Result<Salvage> read_what_is_left(const PatientId& patient);
    /// The newest row of every log.
    Result<Heads> heads();

    /// Writes who opened a patient's record into the access log, as the event "record-opened". The recovery
    /// key's user is noted too.
    Result<Done> note_opened(const PatientId& patient);
    /// The access log, the oldest line first.
    Result<std::vector<Access>> accesses();

    /// A message `clock-went-back` (args minutes) when this machine's clock stands over five minutes behind
    /// what was written before, by this copy or another.
    std::optional<Message> clock_notice();

    /// Unfinished entries: sealed, outside the record, replaced in place. A name is any text.
    Result<Done> put_draft(const std::string& name, std::string_view bytes);
    Result<std::optional<Bytes>> draft(const std::string& name);
    Result<Done> delete_draft(const std::string& name);
    /// Derived values kept to save work: sealed; what is damaged reads as absent.
    Result<Done> put_snapshot(const std::string& name, std::string_view bytes);
    Result<std::optional<Bytes>> snapshot(const std::string& name);
    /// The same for many at once, all or none.
    Result<Done> put_snapshots(const std::map<std::string, std::string>& by_name);
    /// Which of these patients have rows beyond `known`; costs what was added, not what there is. Without a
    /// known head nothing follows.
    Result<Changed> changed_since(const Heads& known, const std::vector<PatientId>& among);

    /// All users ever granted, closed ones and the recovery key too.
    std::vector<User> users() const;
    /// Tells whether a passphrase (or the printed key) is the one that this store's user has now: to uncover
    /// a locked window. May be called from any thread, and outlives the store. Wrong ones are counted as on
    /// opening. Faults: `store-wrong-passphrase`, `store-wrong-recovery-key`, `store-wait`,
    /// `store-in-memory`.
    std::function<Result<Done>(const std::string&)> passphrase_proof() const;
    /// Wipes every key, as a window does that locks itself. Until one is unlocked again, whatever needs a key
    /// ends with the fault `store-locked`; the file stays held.
    void forget_keys();
    bool locked() const;
    /// Takes a passphrase (or the printed key) on any thread, as `passphrase_proof` does and with its faults;
    /// what it returns puts the keys back, on the store's thread. Neither may outlive the store.
    using Unlock = std::function<Result<std::function<Result<Done>()>>(const std::string&)>;
    Unlock unlocking();
    /// The same as `grant` and `change_passphrase` in two parts: the function, for any thread, takes the time
    /// that the passphrase's key costs and returns what is left to do, quickly, on the store's thread.
    /// Neither may outlive the store.
    using Granting = std::function<std::function<Result<User>()>(const NewUser&, const std::string&)>;
    using PassphraseChange =
        std::function<std::function<Result<Done>()>(const std::string&, const std::string&)>;
    Granting granting();
    PassphraseChange passphrase_change();
    /// Adds a user. Only a prescriber or the recovery key may (the latter: a prescriber only). Faults:
    /// `user-may-not-write`, `user-name-taken`, `user-no-name`, `passphrase-too-short`.
    Result<User> grant(const NewUser& user, std::string_view passphrase);
    /// Ends a user's right to write from here on, and begins a new data key that they do not have. Faults:
    /// `user-may-not-write`, `store-unknown-user`, `user-close-own`, `user-last-prescriber`.
    Result<Done> close_user(const UserId& user);
    /// Faults: `store-wrong-passphrase`, `passphrase-too-short`, `store-in-memory`.
    Result<Done> change_passphrase(std::string_view old_passphrase, std::string_view new_passphrase);

    /// Proves every row: chain, seal, signature, grants, and that no head in `known` is missing. Long:
    /// `progress` is told rows done and rows in all, and ends it by returning false.
    Result<CheckReport> check(const Heads& known = {},
                              const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

    /// Copies the store into a new file while it is in use, opens the copy and compares it row by row.
    /// Faults: `store-exists`, `backup-differs`, and those of writing.
    Result<Done> backup(const std::filesystem::path& to);

    /// Takes up what another file of the same clinic has beyond ours, log by log; each row is proved before
    /// it is taken. Where both tell another story of one row, the other's is kept beside and reported.
    /// Faults: `merge-other-clinic`, `store-damaged` (place: the other file), `user-closed` (over
    /// there), and those of opening.
    Result<MergeReport> merge(const std::filesystem::path& other);
    /// Rows that are kept beside because another file told another story of them; those whose seal holds.
    Result<std::vector<StoredEvent>> forked();

    /// What putting a back-up in this store's place would bring and take away. Faults: `merge-other-clinic`,
    /// `merge-other-in-use`, those of opening.
    Result<RestorePreview> preview_restore(const std::filesystem::path& backup);
    /// The newest rows of another file of this clinic (a back-up, the other laptop's), to know them on
    /// `check`. Faults: as `preview_restore`.
    Result<Heads> heads_of_file(const std::filesystem::path& other);
    /// Which marks name no row of this store: `head-missing`, as `check` has it.
    Faults missing(const std::vector<Mark>& marks);

  private:
    friend class BackupRun;
    explicit Store(std::unique_ptr<StoreState> state);
    std::unique_ptr<StoreState> state_;
};

struct Store::Created {
    Store store;
    std::string recovery_key;  ///< to print: seven groups of five signs
};

}  // namespace evenfall
