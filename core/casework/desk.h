// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "casework/caseload.h"
#include "casework/course.h"
#include "casework/suitability.h"
#include "formulary/formulary.h"
#include "record/patient_record.h"
#include "rules/rules.h"

namespace evenfall {

/// Who works at the desk.
struct Worker {
    UserId id;
    std::string name;
    Role role = Role::prescriber;
    std::string licence;

    bool operator==(const Worker&) const = default;
};

/// The log that a desk writes to and reads from: the sealed store, or a plain one in memory for the command
/// line. Faults of the store are passed on as they are.
class EventLog {
  public:
    virtual ~EventLog() = default;
    /// Writes all or nothing; durable when it returns.
    virtual Result<std::vector<StoredEvent>> append(std::vector<Event> events) = 0;
    virtual Result<std::vector<PatientId>> patients() = 0;
    /// In fold order, void events marked. An empty id reads the clinic's own events.
    virtual Result<std::vector<StoredEvent>> read(const PatientId& patient) = 0;
    /// The record that a patient's events make. A log that holds them already folds them in place.
    virtual Result<PatientRecord> folded(const PatientId& patient);
    /// A fresh random id.
    virtual EventId new_id() = 0;

    /// Unfinished entries, outside the record: one text for each patient and kind ("check-in"), replaced in
    /// place, durable when it returns. A log that keeps nothing has none.
    virtual Result<Done> put_draft(const PatientId& /*patient*/, const std::string& /*kind*/,
                                   const std::string& /*text*/) {
        return Done{};
    }
    virtual Result<std::optional<std::string>> read_draft(const PatientId& /*patient*/,
                                                          const std::string& /*kind*/) {
        return std::optional<std::string>();
    }
    virtual Result<Done> drop_draft(const PatientId& /*patient*/, const std::string& /*kind*/) {
        return Done{};
    }
    /// Notes that the worker opened a patient's record. A log that keeps nothing notes nothing.
    virtual Result<Done> note_opened(const PatientId& /*patient*/) { return Done{}; }
};

/// A log in memory, with a clock that the caller gives, that begins with `events`. Nothing is sealed and
/// nothing stays: for case files, the demo and tests.
std::unique_ptr<EventLog> log_in_memory(UserId author, std::function<Instant()> now,
                                        std::vector<Event> events = {});

/// A change that a rule stands against: the desk refuses it until each rule is overridden with a reason.
struct Objection {
    Flag flag;
    bool can_be_overridden = true;

    bool operator==(const Objection&) const = default;
};

/// The one way in and out: views ask it for records and results, and for changes to be carried out; they
/// never edit. Derived results are cached by record; not thread-safe: one desk, one thread.
class Desk {
  public:
    /// Reads the clinic's settings; patients are read when first asked for.
    static Result<Desk> open(std::unique_ptr<EventLog> log, Formulary formulary, Rules rules, Worker worker);

    const Worker& worker() const { return worker_; }
    /// The shipped formulary with the clinic's products and equivalences laid over it.
    const Formulary& formulary() const { return formulary_; }
    /// The shipped rules with the clinic's values laid over them.
    const Rules& rules() const { return rules_; }
    const Scales& scales() const { return scales_; }
    Ground ground() const { return {formulary_, rules_, scales_}; }
    Clinic clinic() const;
    const ClinicRecord& clinic_record() const { return clinic_; }

    const std::vector<PatientId>& patients() const { return patients_; }
    Result<const PatientRecord*> record(const PatientId& patient);
    Result<Course> course(const PatientId& patient, LocalTime as_of);
    /// The list of who needs what, the most pressing first. A person's line is kept for a quarter of an hour
    /// or until their record or the clinic's settings change, so that one entry costs one line.
    std::vector<CaseloadLine> caseload(LocalTime as_of, Faults& faults);

    /// A new person. Faults: `person-no-name`, `person-no-reference`, `person-reference-taken`, birth dates.
    Result<PatientId> add_person(const Person& person, Day today);

    /// What stands against a change, by rule. Empty: it can be carried out.
    std::vector<Objection> objections(const PatientId& patient, const Change& change, LocalTime as_of);

    /// Checks and writes changes, all or none. `overrides` answer objections; an objection without an
    /// override that has a reason is a fault `change-objected`. Every override is written into the record
    /// with its change.
    Result<Done> carry_out(const PatientId& patient, std::vector<Change> changes,
                           const std::vector<Override>& overrides, LocalTime as_of);

    /// Takes an entry back, with a reason.
    Result<Done> amend(const PatientId& patient, const EventId& event, const std::string& reason,
                       LocalTime as_of);

    /// Unfinished entries, sealed and outside the record: one for each patient and kind, replaced in place.
    Result<Done> put_draft(const PatientId& patient, const std::string& kind, const std::string& text);
    Result<std::optional<std::string>> read_draft(const PatientId& patient, const std::string& kind);
    Result<Done> drop_draft(const PatientId& patient, const std::string& kind);

    /// Notes who opened a patient's record: one line for each patient, worker and day while the desk lives.
    Result<Done> note_opened(const PatientId& patient, Day today);

    /// Is told after every change of a patient's record (empty id: of the clinic's).
    void on_change(std::function<void(const PatientId&)> listener) { listener_ = std::move(listener); }

  private:
    Desk(std::unique_ptr<EventLog> log, Formulary formulary, Rules rules, Worker worker);
    Result<Done> read_clinic();
    Faults check(const PatientId& patient, const Change& change, LocalTime as_of);
    Result<const CaseloadLine*> line(const PatientId& patient, LocalTime as_of);

    struct KeptLine {
        LocalTime as_of{};
        CaseloadLine line;
    };

    std::unique_ptr<EventLog> log_;
    Formulary shipped_formulary_;
    Rules shipped_rules_;
    Formulary formulary_;
    Rules rules_;
    Scales scales_;
    Worker worker_;
    ClinicRecord clinic_;
    std::vector<PatientId> patients_;
    std::map<PatientId, PatientRecord> records_;
    std::map<PatientId, KeptLine> lines_;
    std::set<std::pair<Day, PatientId>> opened_;
    std::function<void(const PatientId&)> listener_;
};

}  // namespace evenfall
