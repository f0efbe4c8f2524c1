// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/recovery_key.h"
#include "store/state.h"

namespace evenfall {

namespace {

/// What a passphrase of the user at the desk opens now: their secrets. For any thread; wrong ones are
/// counted.
class Opener {
  public:
    explicit Opener(const StoreState& state)
        : own_(state.own_keys),
          clinic_(state.clinic),
          tries_(state.path, state.options.now, state.options.delays),
          in_memory_(state.path.empty()) {}

    Result<std::shared_ptr<UserSecrets>> open(const std::string& typed) {
        if (in_memory_) return Fault{"store-in-memory", "", {}};
        const WrappedKeys keys = keys_of_now();
        std::string secret = typed;
        if (keys.name.empty()) {  // who opened it with the printed key types it again
            auto key = read_recovery_key(typed);
            if (!key) return key.faults();
            secret = *key;
        }
        return tries_.attempt<std::shared_ptr<UserSecrets>>(keys.name,
                                                            [&] { return unwrapped(keys, secret); });
    }
    const Bytes& clinic() const { return clinic_; }

  private:
    WrappedKeys keys_of_now() {
        const std::scoped_lock held(own_->mutex);
        return own_->keys;
    }
    Result<std::shared_ptr<UserSecrets>> unwrapped(const WrappedKeys& keys, const std::string& secret) const {
        return guarded<std::shared_ptr<UserSecrets>>([&]() -> Result<std::shared_ptr<UserSecrets>> {
            if (auto secrets = unwrap(keys, clinic_, secret))
                return std::make_shared<UserSecrets>(std::move(*secrets));
            return Fault{
                keys.name.empty() ? "store-wrong-recovery-key" : "store-wrong-passphrase", keys.name, {}};
        });
    }

    std::shared_ptr<OwnKeys> own_;
    Bytes clinic_;
    Tries tries_;
    bool in_memory_;
};

template <class T>
std::function<Result<T>()> refusal(Faults faults) {
    return [faults = std::move(faults)]() -> Result<T> { return faults; };
}

}  // namespace

std::function<Result<Done>(const std::string&)> Store::passphrase_proof() const {
    return [opener = Opener(*state_)](const std::string& typed) mutable -> Result<Done> {
        const auto secrets = opener.open(typed);
        if (!secrets) return secrets.faults();
        return Done{};
    };
}

void Store::forget_keys() {
    state_->forget_keys();
}

bool Store::locked() const {
    return state_->locked();
}

Store::Unlock Store::unlocking() {
    return [state = state_.get(), opener = Opener(*state_)](
               const std::string& typed) mutable -> Result<std::function<Result<Done>()>> {
        auto secrets = opener.open(typed);
        if (!secrets) return secrets.faults();
        return std::function<Result<Done>()>([state, opened = std::move(*secrets)]() -> Result<Done> {
            auto done = guarded<Done>([&]() -> Result<Done> {
                state->take_secrets(std::move(*opened));
                keep_announced_epochs(*state);
                return Done{};
            });
            if (!done) state->forget_keys();  // all keys or none
            return done;
        });
    };
}

Store::PassphraseChange Store::passphrase_change() {
    return [state = state_.get(), opener = Opener(*state_), own = state_->user.grant,
            kdf = state_->options.kdf](const std::string& old_passphrase,
                                       const std::string& fresh) mutable -> std::function<Result<Done>()> {
        if (own.recovery) return refusal<Done>({may_not_write({own, {}, {}}, "passphrase")});
        if (state->path.empty()) return refusal<Done>({{"store-in-memory", "", {}}});
        if (Faults faults = faults_of({own.name, own.role, ""}, fresh); !faults.empty())
            return refusal<Done>(faults);
        const auto secrets = opener.open(old_passphrase);
        if (!secrets) return refusal<Done>(secrets.faults());
        auto keys = guarded<WrappedKeys>(
            [&]() -> Result<WrappedKeys> { return wrap(opener.clinic(), own.name, **secrets, fresh, kdf); });
        if (!keys) return refusal<Done>(keys.faults());
        return [state, keys = std::move(*keys)]() -> Result<Done> {
            return guarded<Done>([&]() -> Result<Done> {
                state->need_keys();
                sql::Transaction whole(state->db);
                keep_user(state->db, keys);
                whole.commit();
                state->take_own_keys();
                return Done{};
            });
        };
    };
}

}  // namespace evenfall
