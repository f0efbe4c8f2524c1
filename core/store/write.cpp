// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/state.h"

namespace evenfall {

namespace {

/// A clock that stands this far behind what was written is flagged: smaller steps are clocks being set right.
constexpr std::int64_t kClockTolerance = 5LL * 60 * 1'000'000;

bool is_event_id(const EventId& id) {
    return id.empty() || (id.size() == 32 && id.find_first_not_of("0123456789abcdef") == std::string::npos);
}

}  // namespace

static Faults faults_of(Store& store, const Event& event) {
    const User& user = store.user();
    if (event.kind.empty()) return {{"event-no-kind", "", {}}};
    if (key_of_stand_in(event.patient)) return {{"event-bad-id", event.kind, {{"id", event.patient}}}};
    if (!is_event_id(event.id)) return {{"event-bad-id", event.kind, {{"id", event.id}}}};
    // Who may write is told by `grant` and `close_user`, which see to the keys as well.
    if (event.kind == kUserGranted || event.kind == kUserClosed) return {may_not_write(user, event.kind)};
    if (user.grant.recovery && event.kind == kRecordOpened) return {};
    if (user.grant.recovery || !may(user.grant.role, event.kind)) return {may_not_write(user, event.kind)};
    const EventId amended = amended_entry(event);
    if (amended.empty() || user.grant.role == Role::prescriber) return {};
    const auto events = store.read_what_is_left(event.patient);
    if (!events) return events.faults();
    for (const StoredEvent& each : events->events)
        if (each.event.id == amended && !may(user.grant.role, each.event.kind))
            return {may_not_write(user, each.event.kind)};
    return {};
}

Result<std::vector<StoredEvent>> Store::append(std::vector<Event> events) {
    Faults faults;
    for (const Event& each : events) {
        const Faults found = faults_of(*this, each);
        faults.insert(faults.end(), found.begin(), found.end());
    }
    if (!faults.empty()) return faults;
    if (events.empty()) return std::vector<StoredEvent>{};
    return guarded<std::vector<StoredEvent>>(
        [&]() -> Result<std::vector<StoredEvent>> { return write_events(*state_, std::move(events)); });
}

std::optional<Message> Store::clock_notice() {
    const auto behind = guarded<std::int64_t>(
        [&]() -> Result<std::int64_t> { return state_->known_tail().clock_seen - state_->options.now(); });
    if (!behind || *behind <= kClockTolerance) return std::nullopt;
    return Message{"clock-went-back", {{"minutes", std::to_string(*behind / 60'000'000)}}};
}

namespace {

Result<Done> put_apart(StoreState& state, const char* sql, const std::string& what, std::string_view bytes) {
    return guarded<Done>([&]() -> Result<Done> {
        const Bytes key = state.draft_key(what);
        const Bytes sealed =
            crypto::seal(bytes, "evenfall-apart-1" + state.clinic + key, state.epochs.at(state.epoch).apart);
        state.db.prepared(sql)->bind_blob(1, key).bind_blob(2, sealed).step();
        return Done{};
    });
}

/// What was sealed before a user was closed is under an older key: the newest that fits opens it.
std::optional<Bytes> open_apart(const StoreState& state, std::string_view sealed, const Bytes& key) {
    for (auto epoch = state.epochs.rbegin(); epoch != state.epochs.rend(); ++epoch)
        if (auto text = crypto::open(sealed, "evenfall-apart-1" + state.clinic + key, epoch->second.apart))
            return text;
    return std::nullopt;
}

}  // namespace

Result<Done> Store::put_draft(const std::string& name, std::string_view bytes) {
    return put_apart(*state_, "INSERT OR REPLACE INTO drafts(name, sealed) VALUES(?1, ?2)", "draft " + name,
                     bytes);
}

Result<std::optional<Bytes>> Store::draft(const std::string& name) {
    return guarded<std::optional<Bytes>>([&]() -> Result<std::optional<Bytes>> {
        const Bytes key = state_->draft_key("draft " + name);
        sql::Use read = state_->db.prepared("SELECT sealed FROM drafts WHERE name=?1");
        if (!read->bind_blob(1, key).step()) return std::optional<Bytes>();
        auto text = open_apart(*state_, read->bytes(0), key);
        if (!text) return Fault{"store-damaged", "drafts", {{"what", "drafts"}}};
        return text;
    });
}

Result<Done> Store::delete_draft(const std::string& name) {
    return guarded<Done>([&]() -> Result<Done> {
        const Bytes key = state_->draft_key("draft " + name);
        state_->db.prepared("DELETE FROM drafts WHERE name=?1")->bind_blob(1, key).step();
        return Done{};
    });
}

Result<Done> Store::put_snapshot(const std::string& name, std::string_view bytes) {
    return put_apart(*state_, "INSERT OR REPLACE INTO snapshots(name, sealed) VALUES(?1, ?2)",
                     "snapshot " + name, bytes);
}

Result<Done> Store::put_snapshots(const std::map<std::string, std::string>& by_name) {
    return guarded<Done>([&]() -> Result<Done> {
        sql::Transaction all(state_->db);
        for (const auto& [name, bytes] : by_name)
            if (auto put = put_snapshot(name, bytes); !put) return put;
        all.commit();
        return Done{};
    });
}

Result<std::optional<Bytes>> Store::snapshot(const std::string& name) {
    return guarded<std::optional<Bytes>>([&]() -> Result<std::optional<Bytes>> {
        const Bytes key = state_->draft_key("snapshot " + name);
        sql::Use read = state_->db.prepared("SELECT sealed FROM snapshots WHERE name=?1");
        if (!read->bind_blob(1, key).step()) return std::optional<Bytes>();
        return open_apart(*state_, read->bytes(0), key);
    });
}

}  // namespace evenfall
