// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <nlohmann/json.hpp>

#include "store/state.h"

namespace evenfall {

Fault may_not_write(const User& user, std::string_view kind) {
    const std::string role = user.grant.recovery ? "recovery key" : word(user.grant.role);
    return {"user-may-not-write", std::string(kind), {{"kind", std::string(kind)}, {"role", role}}};
}

Event grant_event(const UserGrant& grant) {
    return {{}, {}, std::string(kUserGranted), 1, Body(nlohmann::json(grant))};
}

void keep_keys(StoreState& state, const WrappedKeys& keys, const UserSecrets& secrets) {
    state.need_keys();
    keep_user(state.db, keys);
    for (const auto& [epoch, each] : state.epochs)
        give_data_key(state.db, secrets.id(), epoch, each.data, crypto::box_public(secrets.box_seed));
}

/// Drops data keys that no closing announced: only epoch 1 and announced ones are ours.
void keep_announced_epochs(StoreState& state) {
    std::map<std::int64_t, std::string> announced;
    for (const User& user : state.grants.all())
        if (user.closing) announced[user.closing->epoch] = user.closing->key_hash;
    for (auto each = state.epochs.begin(); each != state.epochs.end();) {
        const auto known = announced.find(each->first);
        const bool ours =
            each->first == 1 ||
            (known != announced.end() && known->second == to_hex(crypto::hash(each->second.data.view())));
        each = ours ? std::next(each) : state.epochs.erase(each);
    }
    const UserClosing* newest = state.grants.newest_closing();
    state.epoch = newest == nullptr ? 1 : newest->epoch;
    if (!state.epochs.contains(state.epoch))
        throw sql::Failure{{"store-damaged", "data_keys", {{"what", "data_keys"}}}};
}

std::vector<User> Store::users() const {
    return state_->grants.all();
}

namespace {

/// Whether the user at the desk may let this one in, under this name.
Faults faults_of_granting(const StoreState& state, const NewUser& user) {
    const UserGrant& granter = state.user.grant;
    const bool allowed = granter.recovery ? user.role == Role::prescriber : may(granter.role, kUserGranted);
    if (!allowed) return {may_not_write(state.user, kUserGranted)};
    if (state.grants.find_name(user.name) == nullptr) return {};
    return {{"user-name-taken", "name", {{"name", user.name}}}};
}

Faults faults_of_grant(const StoreState& state, const NewUser& user, std::string_view passphrase) {
    Faults faults = faults_of_granting(state, user);
    if (!faults.empty() && faults.front().id == "user-may-not-write") return faults;
    Faults own = faults_of(user, passphrase);
    own.insert(own.end(), faults.begin(), faults.end());
    return own;
}

Result<User> grant_prepared(StoreState& state, const NewUser& user, const WrappedKeys& keys,
                            const UserSecrets& secrets) {
    if (Faults faults = faults_of_granting(state, user); !faults.empty()) return faults;
    return guarded<User>([&]() -> Result<User> {
        const UserGrant grant = grant_of(secrets, user, false);
        const auto stored =
            write_events(state, {grant_event(grant)}, [&] { keep_keys(state, keys, secrets); });
        state.grants.apply(stored.front());
        return *state.grants.find(grant.id);
    });
}

std::size_t open_prescribers(const Grants& grants) {
    std::size_t count = 0;
    for (const User& user : grants.all())
        if (user.open() && !user.grant.recovery && user.grant.role == Role::prescriber) ++count;
    return count;
}

Faults faults_of_closing(const StoreState& state, const UserId& id) {
    const User* user = state.grants.find(id);
    if (state.user.grant.recovery || !may(state.user.grant.role, kUserClosed))
        return {may_not_write(state.user, kUserClosed)};
    if (user == nullptr || !user->open() || user->grant.recovery)
        return {{"store-unknown-user", id, {{"name", id}}}};
    if (id == state.user.grant.id) return {{"user-close-own", id, {{"name", user->grant.name}}}};
    if (user->grant.role == Role::prescriber && open_prescribers(state.grants) < 2)
        return {{"user-last-prescriber", id, {{"name", user->grant.name}}}};
    return {};
}

UserClosing closing_of(StoreState& state, const UserId& id, const Heads& heads, const SecretBytes& next_key) {
    UserClosing closing{id, {}, 0, to_hex(crypto::hash(next_key.view()))};
    for (const auto& [log, head] : heads) closing.last_accepted[log] = head.sequence;
    // A time rather than a count: two laptops that each close somebody must not give one name to two keys.
    closing.epoch = std::max(state.known_tail().clock_seen + 1, state.options.now());
    return closing;
}

}  // namespace

void forget_user(sql::Database& db, const UserId& id) {
    const Bytes bytes = from_hex(id).value_or(Bytes());
    db.prepared("DELETE FROM users WHERE id=?1")->bind_blob(1, bytes).step();
    db.prepared("DELETE FROM data_keys WHERE user=?1")->bind_blob(1, bytes).step();
}

Store::Granting Store::granting() {
    return [state = state_.get(), clinic = state_->clinic, kdf = state_->options.kdf](
               const NewUser& user, const std::string& passphrase) -> std::function<Result<User>()> {
        if (Faults faults = faults_of(user, passphrase); !faults.empty())
            return [faults]() -> Result<User> { return faults; };
        const auto secrets = std::make_shared<UserSecrets>(UserSecrets::random());
        auto keys = guarded<WrappedKeys>(
            [&]() -> Result<WrappedKeys> { return wrap(clinic, user.name, *secrets, passphrase, kdf); });
        if (!keys) return [faults = keys.faults()]() -> Result<User> { return faults; };
        return [state, user, secrets, keys = std::move(*keys)]() -> Result<User> {
            return grant_prepared(*state, user, keys, *secrets);
        };
    };
}

Result<User> Store::grant(const NewUser& user, std::string_view passphrase) {
    if (Faults faults = faults_of_grant(*state_, user, passphrase); !faults.empty()) return faults;
    return granting()(user, std::string(passphrase))();
}

Result<Done> Store::close_user(const UserId& user) {
    if (Faults faults = faults_of_closing(*state_, user); !faults.empty()) return faults;
    const auto known = heads();
    if (!known) return known.faults();
    return guarded<Done>([&]() -> Result<Done> {
        state_->need_keys();
        SecretBytes next_key = crypto::random_secret(crypto::kKeyBytes);
        const UserClosing closing = closing_of(*state_, user, *known, next_key);
        const Event event{{}, {}, std::string(kUserClosed), 1, Body(nlohmann::json(closing))};
        const auto stored = write_events(*state_, {event}, [&] {
            forget_user(state_->db, user);
            for (const User& each : state_->grants.all())
                if (each.open() && each.grant.id != user)
                    give_data_key(state_->db, from_hex(each.grant.id).value_or(Bytes()), closing.epoch,
                                  next_key, from_hex(each.grant.box_key).value_or(Bytes()));
        });
        state_->grants.apply(stored.front());
        state_->epochs.emplace(closing.epoch, EpochKeys(std::move(next_key)));
        state_->epoch = closing.epoch;
        return Done{};
    });
}

Result<Done> Store::change_passphrase(std::string_view old_passphrase, std::string_view new_passphrase) {
    return passphrase_change()(std::string(old_passphrase), std::string(new_passphrase))();
}

}  // namespace evenfall
