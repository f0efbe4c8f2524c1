// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "store/proof.h"

namespace evenfall {

namespace {

constexpr std::int64_t kReportEvery = 256;

/// Pages kept in memory while rows are read in the order of the logs: each patient's newest page is come back
/// to, and SQLite's usual 2 MiB would read a page from the file for every row.
class ManyPages {
  public:
    explicit ManyPages(sql::Database& db) : db_(db) { db_.run("PRAGMA cache_size=-32768"); }
    ~ManyPages() {
        try {
            db_.run("PRAGMA cache_size=-2000");
        } catch (const sql::Failure&) {
            // More memory is held until the store is closed; nothing else is other.
        }
    }
    ManyPages(const ManyPages&) = delete;
    ManyPages& operator=(const ManyPages&) = delete;

  private:
    sql::Database& db_;
};

void check_file(sql::Database& db, CheckReport& report) {
    sql::Statement check(db.handle(), "PRAGMA integrity_check");
    while (check.step())
        if (const std::string says(check.bytes(0)); says != "ok")
            report.damage.push_back({"file-damaged", "file", {{"says", says}}});
}

void take_result(LogProof& proof, const Row& row, StoreState& state, CheckReport& report,
                 std::set<PatientId>& amended_by_nurse) {
    ++report.rows;
    RowVerdict verdict = proof.follow(row);
    report.signatures += verdict.signature_verified ? 1 : 0;
    const bool sound = verdict.damage.empty();
    report.sound += sound ? 1 : 0;
    report.damage.insert(report.damage.end(), verdict.damage.begin(), verdict.damage.end());
    report.damage.insert(report.damage.end(), verdict.earlier.begin(), verdict.earlier.end());
    if (!verdict.event) return;
    StoredEvent& event = *verdict.event;
    if (!event.event.patient.empty()) (sound ? report.readable : report.hurt).insert(event.event.patient);
    event.void_reason = state.grants.void_reason(event);
    if (event.event.kind == kEntryAmended) amended_by_nurse.insert(event.event.patient);
    if (!event.void_reason.empty()) report.voided.push_back(std::move(event));
}

/// Whether a row that takes another back may do so shows only beside that other row.
void add_void_amendments(Store& store, const std::set<PatientId>& patients, CheckReport& report) {
    for (const PatientId& patient : patients) {
        const auto salvage = store.read_what_is_left(patient);
        if (!salvage) continue;
        for (const StoredEvent& each : salvage->events)
            if (!each.void_reason.empty() && each.event.kind == kEntryAmended &&
                std::find(report.voided.begin(), report.voided.end(), each) == report.voided.end())
                report.voided.push_back(each);
    }
}

void check_heads(sql::Database& db, const Heads& known, CheckReport& report) {
    sql::Use find = db.prepared("SELECT hash FROM events WHERE log=?1 AND sequence=?2");
    for (const auto& [log, head] : known) {
        const Bytes id = from_hex(log).value_or(Bytes());
        const bool found =
            find->bind_blob(1, id).bind(2, head.sequence).step() && to_hex(find->bytes(0)) == head.hash;
        find->reset();
        if (!found)
            report.damage.push_back({"head-missing",
                                     log + " " + std::to_string(head.sequence),
                                     {{"log", log.substr(0, 8)}, {"row", std::to_string(head.sequence)}}});
    }
}

/// Every open user of a file must find wrapped keys in it.
void check_keys(StoreState& state, CheckReport& report) {
    if (state.path.empty()) return;
    for (const User& user : state.grants.all()) {
        if (!user.open()) continue;
        const Bytes id = from_hex(user.grant.id).value_or(Bytes());
        sql::Use keys = state.db.prepared(
            "SELECT count(*) FROM users JOIN data_keys ON user=id WHERE id=?1 AND epoch=?2");
        const bool found = keys->bind_blob(1, id).bind(2, state.epoch).step() && keys->integer(0) == 1;
        const bool intact = user_row_intact(state.db, id);
        if (!found || !intact)
            report.damage.push_back({"user-keys-damaged", "users", {{"name", user.grant.name}}});
    }
}

void check_rows(StoreState& state, CheckReport& report, std::set<PatientId>& amended,
                const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const std::int64_t all = state.db.number("SELECT count(*) FROM events");
    sql::Use rows = state.db.prepared("SELECT " + std::string(kRowColumns) +
                                      " FROM events INDEXED BY events_by_log ORDER BY log, sequence");
    LogProof proof(state, state.grants, {});
    while (rows->step()) {
        take_result(proof, read_row(*rows), state, report, amended);
        if (progress && report.rows % kReportEvery == 0 && !progress(report.rows, all)) {
            report.complete = false;
            return;
        }
        state.need_keys();  // while it reported, the window may have been locked
    }
    const Faults left = proof.finish();
    report.damage.insert(report.damage.end(), left.begin(), left.end());
    if (progress) progress(report.rows, all);
}

}  // namespace

Result<CheckReport> Store::check(const Heads& known,
                                 const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    CheckReport report;
    if (state_->locked()) return Fault{"store-locked", "", {}};
    try {
        const ManyPages pages(state_->db);
        check_file(state_->db, report);
        state_->grants = read_grants(*state_);
        std::set<PatientId> amended;
        check_rows(*state_, report, amended, progress);
        add_void_amendments(*this, amended, report);
        check_heads(state_->db, known, report);
        check_keys(*state_, report);
        report.forks = state_->db.number("SELECT count(*) FROM forks");
    } catch (const sql::Failure& failure) {
        if (failure.fault.id == "store-locked") return failure.fault;
        // The file itself cannot be read on: what was found until then is the report.
        report.damage.push_back(failure.fault);
        report.complete = false;
    }
    return report;
}

}  // namespace evenfall
