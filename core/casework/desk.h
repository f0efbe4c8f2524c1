// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
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

/// Whose entries came into a log after an earlier state of it.
struct LogChanges {
    std::string state;     ///< as it is now, for the next time
    bool follows = false;  ///< false: the earlier state is none of this log; nothing else is known
    bool clinic = false;
    bool others = false;  ///< patients that were not asked about
    std::vector<PatientId> patients;
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
    /// Derived values that are kept to save work, by name: sealed, and computed again where they are lost. A
    /// log that keeps nothing has none.
    virtual bool keeps_snapshots() const { return false; }
    virtual std::optional<std::string> snapshot(const std::string& /*name*/) { return std::nullopt; }
    virtual Result<Done> put_snapshots(const std::map<std::string, std::string>& /*by_name*/) {
        return Done{};
    }
    /// Which of these patients have entries beyond a state (empty: none was known).
    virtual Result<LogChanges> changed_since(const std::string& /*state*/,
                                             const std::vector<PatientId>& /*among*/) {
        return LogChanges{};
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
    /// Somebody's record. It stays where it is until it changes or a dozen other records were asked for: ask
    /// again rather than hold it. Faults: `patient-unknown`, and those of reading.
    Result<const PatientRecord*> record(const PatientId& patient);
    Result<Course> course(const PatientId& patient, LocalTime as_of);
    /// The list of who needs what, the most pressing first. A person's line is kept for a quarter of an hour
    /// or until their record or the clinic's settings change, so that one entry costs one line.
    std::vector<CaseloadLine> caseload(LocalTime as_of, Faults& faults);
    /// One person's line, derived where the kept one does not hold.
    Result<const CaseloadLine*> line(const PatientId& patient, LocalTime as_of);

    /// The list as far as it is known without reading a record: what was derived today, and what an earlier
    /// session foresaw for today and sealed in the log.
    struct KnownCaseload {
        std::vector<CaseloadLine> lines;
        std::size_t missing = 0;     ///< people whose line has to be derived first
        std::size_t unreadable = 0;  ///< people whose record cannot be read: they have no line at all
    };
    KnownCaseload known_caseload(LocalTime as_of);
    /// Derives one more line that is missing, foreseen or old, and with it those of the days to come, so that
    /// the next session begins with them. Returns whether there is more to do.
    bool look_on(LocalTime as_of, Faults& faults);

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

    /// Reads again what came into the log past the desk, as an exchange file was taken in: these patients
    /// (empty id: the clinic's own settings), and who there is.
    Result<Done> take_up(const std::vector<PatientId>& patients);

    /// Unfinished entries, sealed and outside the record: one for each patient and kind, replaced in place.
    Result<Done> put_draft(const PatientId& patient, const std::string& kind, const std::string& text);
    Result<std::optional<std::string>> read_draft(const PatientId& patient, const std::string& kind);
    Result<Done> drop_draft(const PatientId& patient, const std::string& kind);

    /// Notes who opened a patient's record: one line for each patient, worker and day while the desk lives.
    Result<Done> note_opened(const PatientId& patient, Day today);

  private:
    Desk(std::unique_ptr<EventLog> log, Formulary formulary, Rules rules, Worker worker);
    Result<Done> read_clinic();
    Faults check(const PatientId& patient, const Change& change, LocalTime as_of);
    Result<PatientRecord> fold_aside(const PatientId& patient);
    void add_to_record(const PatientId& patient, const std::vector<StoredEvent>& written);
    void forget(const PatientId& patient);
    void forget_lines();
    void restore_lines(LocalTime as_of);
    void foresee(const PatientRecord& record, LocalTime as_of);
    void queue_looks(LocalTime as_of);
    bool end_of_looking(Faults& faults);
    std::string ground_mark() const;

    struct KeptLine {
        LocalTime as_of{};
        CaseloadLine line;
        bool sure = true;  ///< derived since the last change; false: it may be shown, and is to be looked at
    };
    /// What is kept of the list in the log, and how far it is.
    struct Looking {
        std::optional<Day> restored_on;
        std::string state;                           ///< of the log, that all lines here know of
        std::string kept_index;                      ///< as it was last put
        std::set<PatientId> behind;                  ///< whose lines of the days to come are not put yet
        std::set<PatientId> own;                     ///< changed by this desk since `state`
        bool own_clinic = false;                     ///< the clinic's settings were, too
        std::set<PatientId> failed;                  ///< whose record could not be read
        std::deque<PatientId> queue;                 ///< to be looked at next
        std::map<std::string, std::string> waiting;  ///< snapshots that are not put yet
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
    std::map<PatientId, PatientRecord> records_;  ///< of those that were asked for lately
    std::deque<PatientId> recent_;
    std::map<PatientId, KeptLine> lines_;
    std::string ground_mark_;  ///< of what the kept lines rest on
    Looking looking_;
    std::set<std::pair<Day, PatientId>> opened_;
};

}  // namespace evenfall
