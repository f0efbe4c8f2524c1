// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/state.h"

namespace evenfall {

namespace {

/// The newest row of a log in the file.
Tail tail_of(sql::Database& db, const Bytes& log) {
    Tail tail{log, 0, Bytes(32, '\0'), 0};
    sql::Use last =
        db.prepared("SELECT sequence, hash FROM events WHERE log=?1 ORDER BY sequence DESC LIMIT 1");
    if (last->bind_blob(1, log).step()) {
        tail.sequence = last->integer(0);
        tail.hash = last->bytes(1);
    }
    return tail;
}

std::int64_t newest_clock(sql::Database& db) {
    std::int64_t newest = 0;
    Bytes log;
    sql::Use next = db.prepared("SELECT log FROM events WHERE log>?1 ORDER BY log LIMIT 1");
    sql::Use clock = db.prepared("SELECT clock FROM events WHERE log=?1 ORDER BY sequence DESC LIMIT 1");
    while (next->bind_blob(1, log).step()) {
        log = next->bytes(0);
        next->reset();
        if (clock->bind_blob(1, log).step()) newest = std::max(newest, clock->integer(0));
        clock->reset();
    }
    return newest;
}

bool signs_itself(const Event& event) {
    return event.kind == kUserGranted || event.kind == kUserClosed;
}

struct Writer {
    StoreState& state;
    Tail tail;
    std::int64_t now;
    std::unordered_map<Bytes, std::int64_t> numbers{};

    Row next_row(const Event& event, bool is_signed) {
        Row row;
        row.patient = state.patient_key(event.patient);
        row.clock = std::max(tail.clock_seen + 1, now);
        row.log = tail.log;
        row.sequence = tail.sequence + 1;
        const auto number = numbers.find(row.patient);
        row.number = number == numbers.end() ? state.next_number(row.patient, row.log) : number->second + 1;
        row.at = now / 1'000'000;
        row.event = *from_hex(event.id);
        row.author = *from_hex(state.user.grant.id);
        row.epoch = state.epoch;
        row.previous = tail.hash;
        if (is_signed) row.signature.assign(64, '\0');  // that there is one is hashed; its bytes come after
        return row;
    }

    StoredEvent write(Event event, std::string_view text, bool is_signed) {
        Row row = next_row(event, is_signed);
        const Bytes data = associated_data(row, state.clinic);
        row.sealed = crypto::seal(text, data, state.epochs.at(row.epoch).rows);
        row.hash = crypto::hash_of_both(data, row.sealed);
        if (is_signed) row.signature = crypto::sign(signed_bytes(row.hash), state.signing);
        static const std::string insert = "INSERT INTO events(" + std::string(kRowColumns) +
                                          ") VALUES(?1,?2,?3,?4,?5,?6,?7,?8,?9,?10,?11,?12,?13)";
        write_row(*state.db.prepared(insert), row);
        tail = {row.log, row.sequence, row.hash, row.clock};
        numbers[row.patient] = row.number;
        return {stamp_of(row), std::move(event), {}};
    }
};

/// A copy that has not written yet, or a file that was restored or copied elsewhere, begins a log of its own.
void begin_log(StoreState& state, Tail& tail) {
    if (!tail.log.empty()) return;
    tail.log = crypto::random_bytes(16);
    tail.hash = Bytes(32, '\0');
    set_header(state.db, "log", tail.log);
    set_header(state.db, "home", home_of(state.path));
}

}  // namespace

const Tail& StoreState::known_tail() {
    if (tail) return *tail;
    const Bytes log = header(db, "home") == home_of(path) ? header(db, "log") : Bytes();
    Tail found = log.empty() ? Tail{} : tail_of(db, log);
    found.clock_seen = newest_clock(db);
    numbers.clear();
    tail = found;
    return *tail;
}

std::int64_t StoreState::next_number(const Bytes& patient, const Bytes& log) {
    if (const auto known = numbers.find(patient); known != numbers.end()) return known->second + 1;
    // Clocks of one log only rise, so the first hit from the end is the log's newest row for this patient.
    sql::Use last =
        db.prepared("SELECT number FROM events WHERE patient=?1 AND log=?2 ORDER BY clock DESC LIMIT 1");
    return last->bind_blob(1, patient).bind_blob(2, log).step() ? last->integer(0) + 1 : 1;
}

std::vector<StoredEvent> write_events(StoreState& state, std::vector<Event> events,
                                      const std::function<void()>& more) {
    std::vector<Bytes> texts;
    for (Event& each : events) {
        if (each.id.empty()) each.id = crypto::new_id();
        auto text = event_text(each);
        if (!text) throw sql::Failure{text.faults().front()};
        texts.push_back(std::move(*text));
    }
    Writer writer{state, state.known_tail(), state.options.now()};
    state.tail.reset();  // should anything fail from here on, the file says where the log ends
    sql::Transaction transaction(state.db);
    begin_log(state, writer.tail);
    std::vector<StoredEvent> stored;
    for (std::size_t i = 0; i < events.size(); ++i) {
        const bool is_signed = i + 1 == events.size() || signs_itself(events[i]);
        stored.push_back(writer.write(std::move(events[i]), texts[i], is_signed));
    }
    if (more) more();
    transaction.commit();
    state.tail = writer.tail;
    for (const auto& [patient, number] : writer.numbers) state.numbers[patient] = number;
    return stored;
}

}  // namespace evenfall
