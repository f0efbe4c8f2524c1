// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/store.h"

#include <array>
#include <cerrno>
#include <fstream>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/recovery_key.h"
#include "store/state.h"

namespace evenfall {

namespace {

/// What the user of the printed key is called in the table of users; people have names.
const std::string kRecoveryName;

std::unique_ptr<StoreState> new_state(sql::Database db, const std::string& clinic,
                                      const StoreOptions& options) {
    auto state = std::make_unique<StoreState>(std::move(db));
    state->options = options;
    state->name = clinic;
    state->secrets = UserSecrets::random();
    state->founding_key = crypto::signing_public(state->secrets.signing_seed);
    state->clinic = crypto::hash("evenfall-clinic-1" + state->founding_key, 16);
    std::map<std::int64_t, SecretBytes> keys;
    keys.emplace(1, crypto::random_secret(crypto::kKeyBytes));
    state->take_epochs(keys);
    return state;
}

void write_header(StoreState& state) {
    make_tables(state.db);
    set_header(state.db, "clinic", state.clinic);
    set_header(state.db, "name", state.name);
    set_header(state.db, "founding key", state.founding_key);
    set_header(state.db, "log", "");
    set_header(state.db, "home", "");
}

/// The founder's grant to themselves, and to the printed key where there is one.
void found(StoreState& state, const NewUser& first, const UserSecrets* recovery) {
    state.user.grant = grant_of(state.secrets, first, false);
    state.signing = crypto::signing_secret(state.secrets.signing_seed);
    state.grants = Grants(to_hex(state.founding_key));
    std::vector<Event> events{grant_event(state.user.grant)};
    if (recovery != nullptr)
        events.push_back(grant_event(grant_of(*recovery, {"", Role::prescriber, ""}, true)));
    for (const StoredEvent& each : write_events(state, std::move(events))) state.grants.apply(each);
    state.user = *state.grants.find(state.user.grant.id);
}

/// Whether the account that the program runs as may do this; the file's own permissions decide, not ours to
/// guess.
bool allowed(const std::filesystem::path& path, int what) {
    return ::faccessat(AT_FDCWD, path.c_str(), what, AT_EACCESS) == 0;
}

/// Whether a file begins as a store does. One without anything in it yet may be a store whose first rows are
/// still in its log.
bool begins_as_store(const std::filesystem::path& path) {
    constexpr std::size_t kMagicEnd = 16;
    std::array<char, kMagicEnd> begin{};
    std::ifstream stream(path, std::ios::binary);
    stream.read(begin.data(), begin.size());
    return stream.gcount() == 0 ||
           std::string_view(begin.data(), begin.size()) == std::string_view("SQLite format 3", kMagicEnd);
}

/// What is wrong with a path before it is opened.
std::optional<Fault> fault_of_path(const std::filesystem::path& path) {
    struct stat info {};
    if (::stat(path.c_str(), &info) != 0) return fault_of_errno(errno, path);
    if (!S_ISREG(info.st_mode)) return Fault{"store-not-a-store", path.string(), {}};
    if (!allowed(path, R_OK)) return fault_of_errno(errno, path);
    if (!begins_as_store(path)) return Fault{"store-not-a-store", path.string(), {}};
    if (allowed(path, W_OK)) return std::nullopt;
    Fault fault = fault_of_errno(errno, path);
    fault.id = "store-read-only";
    return fault;
}

/// A folder in which no file can be made cannot hold the log that makes a commit durable.
std::optional<Fault> fault_of_folder(const std::filesystem::path& path) {
    const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
    if (allowed(folder, W_OK)) return std::nullopt;
    Fault fault = fault_of_errno(errno, folder);
    fault.id = "store-read-only";
    return fault;
}

void read_header(StoreState& state) {
    state.clinic = header(state.db, "clinic");
    state.name = header(state.db, "name");
    state.founding_key = header(state.db, "founding key");
    if (crypto::hash("evenfall-clinic-1" + state.founding_key, 16) != state.clinic)
        throw sql::Failure{{"store-damaged", "header", {{"what", "founding key"}}}};
}

void unlock(StoreState& state, const std::string& name, std::string_view passphrase, const char* wrong) {
    state.take_secrets(unlock_user(state.db, state.clinic, name, passphrase, wrong));
    state.grants = read_grants(state);
    keep_announced_epochs(state);
    const User* user = state.grants.find(to_hex(state.secrets.id()));
    if (user == nullptr || !user->open()) throw sql::Failure{{"store-unknown-user", name, {{"name", name}}}};
    state.user = *user;
    state.take_own_keys();
}

Result<std::unique_ptr<StoreState>> open_state(const std::filesystem::path& path, const std::string& name,
                                               std::string_view passphrase, const char* wrong,
                                               const StoreOptions& options) {
    if (auto fault = fault_of_path(path)) return *fault;
    if (auto fault = fault_of_folder(path)) return *fault;
    auto lock = FileLock::take(path);
    if (!lock) return lock.faults();
    return guarded<std::unique_ptr<StoreState>>([&]() -> Result<std::unique_ptr<StoreState>> {
        auto state = std::make_unique<StoreState>(sql::Database(path, sql::Mode::write));
        state->lock = std::move(*lock);
        state->path = path;
        state->options = options;
        hold_alone(state->db);
        check_format(state->db);
        use_write_settings(state->db, options.max_pages);
        read_header(*state);
        Tries tries(path, options.now, options.delays);
        auto unlocked = tries.attempt<Done>(name, [&] {
            return guarded<Done>([&]() -> Result<Done> {
                unlock(*state, name, passphrase, wrong);
                return Done{};
            });
        });
        if (!unlocked) return unlocked.faults();
        return state;
    });
}

}  // namespace

Bytes home_of(const std::filesystem::path& path) {
    struct stat info {};
    if (path.empty() || ::stat(path.c_str(), &info) != 0) return {};
    std::string machine;
    std::ifstream("/etc/machine-id") >> machine;
    Bytes place = "evenfall-home-1" + machine;
    append_number(place, static_cast<std::int64_t>(info.st_ino));
    return crypto::hash(place, 16);
}

void StoreState::take_epochs(const std::map<std::int64_t, SecretBytes>& keys) {
    for (const auto& [number, key] : keys) epochs.try_emplace(number, key.copy());
    const auto first = epochs.find(1);
    if (first == epochs.end()) throw sql::Failure{{"store-damaged", "data_keys", {{"what", "data_keys"}}}};
    name_key = crypto::subkey(first->second.data, 3);
}

void StoreState::need_keys() const {
    if (locked()) throw sql::Failure{{"store-locked", "", {}}};
}

void StoreState::forget_keys() {
    secrets = {};
    signing = {};
    name_key = {};
    epochs.clear();
    batches.clear();  // where a read ended early, they hold what it read
}

void StoreState::take_secrets(UserSecrets opened) {
    secrets = std::move(opened);
    signing = crypto::signing_secret(secrets.signing_seed);
    take_epochs(data_keys_of(db, secrets));
}

void StoreState::take_own_keys() {
    auto keys = wrapped_keys(db, secrets.id());
    const std::scoped_lock held(own_keys->mutex);
    own_keys->keys = keys ? std::move(*keys) : WrappedKeys{};
}

Clock machine_clock() {
    return [] {
        return std::chrono::duration_cast<std::chrono::microseconds>(
                   std::chrono::system_clock::now().time_since_epoch())
            .count();
    };
}

Store::Store(std::unique_ptr<StoreState> state) : state_(std::move(state)) {
}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store::Created> Store::create(const std::filesystem::path& path, const std::string& clinic,
                                     const NewUser& first, std::string_view passphrase,
                                     const StoreOptions& options) {
    crypto::ready();
    if (Faults faults = faults_of(first, passphrase); !faults.empty()) return faults;
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored)))
        return fault_of_errno(EEXIST, path);
    auto lock = FileLock::take(path);
    if (!lock && lock.faults().front().id == "store-no-such-file")
        return Fault{"store-no-such-folder", path.string(), lock.faults().front().args};
    if (!lock) return lock.faults();
    if (auto fault = make_private_file(path)) return *fault;
    auto made = guarded<Created>([&]() -> Result<Created> {
        auto state = new_state(sql::Database(path, sql::Mode::write), clinic, options);
        state->lock = std::move(*lock);
        state->path = path;
        hold_alone(state->db);
        use_write_settings(state->db, options.max_pages);
        sql::Transaction whole(state->db);
        write_header(*state);
        const std::string recovery_key = make_recovery_key();
        const UserSecrets recovery = UserSecrets::random();
        found(*state, first, &recovery);
        keep_keys(*state, wrap(state->clinic, first.name, state->secrets, passphrase, options.kdf),
                  state->secrets);
        keep_keys(*state,
                  wrap(state->clinic, kRecoveryName, recovery, *read_recovery_key(recovery_key), options.kdf),
                  recovery);
        whole.commit();
        state->take_own_keys();
        return Created{Store(std::move(state)), recovery_key};
    });
    if (!made) remove_store_files(path);
    return made;
}

Result<Store> Store::open(const std::filesystem::path& path, const std::string& user,
                          std::string_view passphrase, const StoreOptions& options) {
    crypto::ready();
    if (user.empty()) return Fault{"store-unknown-user", path.string(), {{"name", user}}};
    auto state = open_state(path, user, passphrase, "store-wrong-passphrase", options);
    if (!state) return state.faults();
    return Store(std::move(*state));
}

Result<Store> Store::open_with_recovery(const std::filesystem::path& path, std::string_view recovery_key,
                                        const StoreOptions& options) {
    crypto::ready();
    const auto key = read_recovery_key(recovery_key);
    if (!key) return key.faults();
    auto state = open_state(path, kRecoveryName, *key, "store-wrong-recovery-key", options);
    if (!state) return state.faults();
    return Store(std::move(*state));
}

Store Store::in_memory(const std::string& clinic, const NewUser& first, const StoreOptions& options) {
    crypto::ready();
    auto state = new_state(sql::Database(":memory:", sql::Mode::create), clinic, options);
    sql::Transaction whole(state->db);
    write_header(*state);
    found(*state, first, nullptr);
    whole.commit();
    return Store(std::move(state));
}

const User& Store::user() const {
    return state_->user;
}

const std::string& Store::clinic() const {
    return state_->name;
}

std::string Store::clinic_id() const {
    return to_hex(state_->clinic);
}

LogId Store::log() const {
    return state_->tail ? to_hex(state_->tail->log) : LogId();
}

}  // namespace evenfall
