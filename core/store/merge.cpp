// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/logs.h"
#include "store/proof.h"

namespace evenfall {

namespace {

using sql::Failure;

/// Copies rows of a log after `after` into one of our tables.
std::int64_t copy_rows(sql::Database& from, sql::Database& to, const std::string& insert, const Bytes& log,
                       std::int64_t after) {
    const std::string columns(kRowColumns);
    const std::string values = "(" + columns + ") VALUES(?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)";
    sql::Use rows =
        from.prepared("SELECT " + columns + " FROM events WHERE log=?1 AND sequence>?2 ORDER BY sequence");
    std::int64_t copied = 0;
    for (rows->bind_blob(1, log).bind(2, after); rows->step(); ++copied)
        write_row(*to.prepared(insert + values), read_row(*rows));
    return copied;
}

struct Merge {
    StoreState& state;
    sql::Database theirs;
    MergeReport report{};
    std::vector<Tail> starts{};  ///< where each log that grows was proved up to

    void take_log(const Bytes& log) {
        const std::int64_t our_last = last_sequence(state.db, log);
        const std::int64_t common = std::min(our_last, last_sequence(theirs, log));
        const std::int64_t same = last_in_common(state.db, theirs, log);
        if (same < common) {
            copy_rows(theirs, state.db, "INSERT OR IGNORE INTO forks", log, same);
            report.forks[to_hex(log)] = same + 1;
            return;
        }
        const Tail ours = tail_at(state.db, log, common);
        const std::int64_t gained = copy_rows(theirs, state.db, "INSERT INTO events", log, our_last);
        report.gained += gained;
        if (gained > 0) starts.push_back(ours);
    }

    /// Wrapped keys of users that we do not have yet, and data keys that were begun over there.
    void take_keys() {
        sql::Use users = theirs.prepared("SELECT id, name, salt, passes, memory, sealed, mark FROM users");
        while (users->step()) {
            sql::Use keep = state.db.prepared(
                "INSERT OR IGNORE INTO users(id, name, salt, passes, memory, sealed, mark) "
                "VALUES(?1,?2,?3,?4,?5,?6,?7)");
            keep->bind_blob(1, users->bytes(0)).bind_text(2, users->bytes(1)).bind_blob(3, users->bytes(2));
            keep->bind(4, users->integer(3)).bind(5, users->integer(4)).bind_blob(6, users->bytes(5));
            keep->bind_blob(7, users->bytes(6)).step();
        }
        sql::Use keys = theirs.prepared("SELECT user, epoch, sealed FROM data_keys");
        while (keys->step()) {
            sql::Use keep =
                state.db.prepared("INSERT OR IGNORE INTO data_keys(user, epoch, sealed) VALUES(?1,?2,?3)");
            keep->bind_blob(1, keys->bytes(0)).bind(2, keys->integer(1)).bind_blob(3, keys->bytes(2)).step();
        }
    }

    /// Users whom no grant names, or whom one closed, have no keys here; the others have all data keys that
    /// we have.
    void settle_keys() {
        std::vector<Bytes> strangers;
        sql::Use ids = state.db.prepared("SELECT id FROM users UNION SELECT user FROM data_keys");
        while (ids->step()) {
            const User* user = state.grants.find(to_hex(ids->bytes(0)));
            if (user == nullptr || !user->open()) strangers.emplace_back(ids->bytes(0));
        }
        for (const Bytes& each : strangers) forget_user(state.db, to_hex(each));
        for (const User& user : state.grants.all()) {
            if (!user.open() || user.grant.id == state.user.grant.id) continue;
            for (const auto& [epoch, keys] : state.epochs)
                give_data_key(state.db, from_hex(user.grant.id).value_or(Bytes()), epoch, keys.data,
                              from_hex(user.grant.box_key).value_or(Bytes()));
        }
    }

    void prove_log(const Tail& start, std::set<PatientId>& patients) {
        sql::Use rows = state.db.prepared("SELECT " + std::string(kRowColumns) +
                                          " FROM events WHERE log=?1 AND sequence>?2 ORDER BY sequence");
        rows->bind_blob(1, start.log).bind(2, start.sequence);
        LogProof proof(state, state.grants, start);
        Faults damage;
        while (rows->step()) {
            RowVerdict verdict = proof.follow(read_row(*rows));
            for (const Faults* each : {&verdict.damage, &verdict.earlier})
                damage.insert(damage.end(), each->begin(), each->end());
            if (verdict.event) patients.insert(verdict.event->event.patient);
        }
        const Faults left = proof.finish();
        damage.insert(damage.end(), left.begin(), left.end());
        if (!damage.empty())
            throw Failure{{"merge-row-refused", damage.front().place, {{"why", damage.front().id}}}};
    }

    /// Whoever was closed over there lacks the new data key: the file is for somebody else to take in.
    void refuse_a_closed_user() const {
        const User* user = state.grants.find(state.user.grant.id);
        if (user == nullptr || !user->open())
            throw Failure{{"user-closed", state.user.grant.name, {{"name", state.user.grant.name}}}};
    }

    /// A log of ours that forked was written by two copies under one name: what we write next gets a new one.
    void leave_forked_log() {
        if (report.forks.contains(to_hex(header(state.db, "log")))) set_header(state.db, "log", "");
    }

    void run() {
        for (const Bytes& log : logs_of(theirs)) take_log(log);
        take_keys();
        state.take_epochs(data_keys_of(state.db, state.secrets));
        state.grants = read_grants(state);
        refuse_a_closed_user();
        keep_announced_epochs(state);
        std::set<PatientId> patients;
        for (const Tail& start : starts) prove_log(start, patients);
        report.patients.assign(patients.begin(), patients.end());
        settle_keys();
        leave_forked_log();
    }
};

/// What a merge that was refused must not leave in memory.
struct Before {
    StoreState& state;
    Grants grants;
    std::int64_t epoch;
    std::set<std::int64_t> epochs{};

    explicit Before(StoreState& of) : state(of), grants(of.grants), epoch(of.epoch) {
        for (const auto& [number, keys] : of.epochs) epochs.insert(number);
    }
    void restore() {
        state.grants = grants;
        state.epoch = epoch;
        std::erase_if(state.epochs, [&](const auto& each) { return !epochs.contains(each.first); });
    }
};

MergeReport merge_file(StoreState& state, const std::filesystem::path& other) {
    state.need_keys();
    sql::Database theirs = open_file_of_clinic(state, other);
    sql::Transaction whole(state.db);
    Merge merge{state, std::move(theirs)};
    merge.run();
    whole.commit();
    return std::move(merge.report);
}

}  // namespace

Result<MergeReport> Store::merge(const std::filesystem::path& other) {
    Before before(*state_);
    state_->tail.reset();
    auto report = guarded<MergeReport>([&]() -> Result<MergeReport> { return merge_file(*state_, other); });
    if (!report) before.restore();
    return report;
}

Result<std::vector<StoredEvent>> Store::forked() {
    return guarded<std::vector<StoredEvent>>([&]() -> Result<std::vector<StoredEvent>> {
        state_->need_keys();
        std::vector<StoredEvent> events;
        sql::Use rows = state_->db.prepared("SELECT " + std::string(kRowColumns) + " FROM forks");
        while (rows->step())
            if (Proved proved = prove(read_row(*rows), state_->clinic, state_->epochs); proved.event)
                events.push_back(std::move(*proved.event));
        return events;
    });
}

}  // namespace evenfall
