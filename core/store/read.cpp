// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <atomic>
#include <future>
#include <set>
#include <span>
#include <system_error>

#include "store/logs.h"

namespace evenfall {

namespace {

/// Checks that rows of one patient follow each other: no number is missing within a log, and rows that are
/// neighbours in their log are linked.
class Links {
  public:
    /// The row must stay where it is while others follow.
    std::optional<Fault> follow(const Row& row) {
        const Row*& last = lasts_[row.log];
        std::optional<Fault> fault;
        const std::int64_t number = last == nullptr ? 0 : last->number;
        if (row.number != number + 1)
            fault =
                row_fault("row-missing-before", row, {{"missing", std::to_string(row.number - number - 1)}});
        else if (last != nullptr && row.sequence == last->sequence + 1 && row.previous != last->hash)
            fault = row_fault("row-link-broken", row);
        last = &row;
        return fault;
    }

  private:
    std::map<std::string_view, const Row*> lasts_;
};

/// Rows that are proved by themselves, some at a time, by whichever thread comes for them: where the second
/// core is busy with something else, the first goes on alone.
class Proofs {
  public:
    Proofs(std::span<const Row> rows, const StoreState& state)
        : rows_(rows), state_(state), events_(rows.size()), damage_(rows.size()) {
        std::future<void> other;
        try {
            if (rows.size() >= kWorthAThread) other = std::async(std::launch::async, [this] { work(); });
        } catch (const std::system_error&) {
            // No thread is to be had: this one does it all.
        }
        work();
        if (other.valid()) other.get();
    }
    StoredEvent& event(std::size_t row) { return events_[row]; }
    std::optional<Fault>& damage(std::size_t row) { return damage_[row]; }
    std::vector<StoredEvent> take_events() { return std::move(events_); }

  private:
    /// Fewer rows than these are proved sooner than another thread begins.
    static constexpr std::size_t kWorthAThread = 96;
    static constexpr std::size_t kAtATime = 32;

    void work() {
        ProofSpace space;
        for (;;) {
            const std::size_t from = next_.fetch_add(kAtATime);
            if (from >= rows_.size()) return;
            for (std::size_t i = from; i < std::min(from + kAtATime, rows_.size()); ++i)
                damage_[i] = prove_into(events_[i], rows_[i], state_.clinic, state_.epochs, space);
        }
    }

    std::span<const Row> rows_;
    const StoreState& state_;
    std::vector<StoredEvent> events_;
    std::vector<std::optional<Fault>> damage_;
    std::atomic<std::size_t> next_{0};
};

/// The rows under a key, in the fold's order.
std::span<const Row> rows_under(StoreState& state, const Bytes& key) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    std::size_t count = 0;
    sql::Use rows = state.db.prepared(select);
    for (rows->bind_blob(1, key); rows->step(); ++count) {
        if (count == state.rows.size()) state.rows.emplace_back();
        read_row_into(state.rows[count], *rows);
    }
    return std::span<const Row>(state.rows).first(count);
}

Salvage salvage_of(StoreState& state, const PatientId& patient) {
    const std::span<const Row> rows = rows_under(state, state.patient_key(patient));
    Proofs proofs(rows, state);
    Salvage salvage;
    std::set<std::size_t> damaged;
    Links links;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (auto fault = links.follow(rows[i])) salvage.damage.push_back(*fault);
        std::optional<Fault>& damage = proofs.damage(i);
        if (!damage && proofs.event(i).event.patient != patient) damage = row_fault("row-misplaced", rows[i]);
        if (!damage) continue;
        salvage.damage.push_back(std::move(*damage));
        damaged.insert(i);
    }
    salvage.events = proofs.take_events();
    for (auto each = damaged.rbegin(); each != damaged.rend(); ++each)
        salvage.events.erase(salvage.events.begin() + static_cast<std::ptrdiff_t>(*each));
    state.grants.mark_void(salvage.events);
    return salvage;
}

/// The patient of the first row under a key that can be read.
std::optional<PatientId> patient_under(StoreState& state, const Bytes& key) {
    static const std::string select =
        "SELECT " + std::string(kRowColumns) + " FROM events WHERE patient=?1 ORDER BY clock, log, sequence";
    sql::Use rows = state.db.prepared(select);
    rows->bind_blob(1, key);
    while (rows->step())
        if (Proved proved = prove(read_row(*rows), state.clinic, state.epochs); proved.event)
            return std::move(proved.event->event.patient);
    return std::nullopt;
}

}  // namespace

Result<Salvage> Store::read_what_is_left(const PatientId& patient) {
    return guarded<Salvage>([&]() -> Result<Salvage> { return salvage_of(*state_, patient); });
}

Result<std::vector<StoredEvent>> Store::read(const PatientId& patient) {
    auto salvage = read_what_is_left(patient);
    if (!salvage) return salvage.faults();
    if (!salvage->damage.empty()) return std::move(salvage->damage);
    return std::move(salvage->events);
}

Result<std::vector<PatientId>> Store::patients() {
    return guarded<std::vector<PatientId>>([&]() -> Result<std::vector<PatientId>> {
        std::vector<PatientId> found;
        const Bytes clinic_events = state_->patient_key({});
        const Bytes access_log = state_->patient_key(PatientId(kAccessLog));
        Bytes key;
        sql::Use next =
            state_->db.prepared("SELECT patient FROM events WHERE patient>?1 ORDER BY patient LIMIT 1");
        while (next->bind_blob(1, key).step()) {
            key = next->bytes(0);
            next->reset();
            if (key == clinic_events || key == access_log) continue;
            if (auto patient = patient_under(*state_, key)) found.push_back(std::move(*patient));
        }
        return found;
    });
}

Result<Heads> Store::heads() {
    return guarded<Heads>([&]() -> Result<Heads> { return heads_of(state_->db); });
}

}  // namespace evenfall
