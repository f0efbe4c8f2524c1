// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/desk.h"

#include <algorithm>

#include "casework/check_contacts.h"
#include "casework/checks.h"
#include "casework/in_force.h"
#include "record/users.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

/// Records of so many people stay at hand; those of a thousand would fill the memory.
constexpr std::size_t kRecordsKept = 16;

/// The override that answers an objection: one with a reason of some length.
const Override* answer_to(const Objection& objection, const std::vector<Override>& overrides,
                          const Rules& rules) {
    const auto found = std::ranges::find(overrides, objection.flag.rule, &Override::rule);
    const auto least = static_cast<std::size_t>(rules.whole("override-reason", "letters"));
    return found == overrides.end() || found->reason.size() < least ? nullptr : &*found;
}

}  // namespace

Result<PatientRecord> EventLog::folded(const PatientId& patient) {
    const auto events = read(patient);
    if (!events) return events.faults();
    return fold_patient(patient, *events);
}

Desk::Desk(std::unique_ptr<EventLog> log, Formulary formulary, Rules rules, Worker worker)
    : log_(std::move(log)),
      shipped_formulary_(std::move(formulary)),
      shipped_rules_(std::move(rules)),
      formulary_(shipped_formulary_),
      rules_(shipped_rules_),
      worker_(std::move(worker)) {
}

Result<Desk> Desk::open(std::unique_ptr<EventLog> log, Formulary formulary, Rules rules, Worker worker) {
    Desk desk(std::move(log), std::move(formulary), std::move(rules), std::move(worker));
    auto scales = load_scales(resources_folder() / "scales.json");
    if (!scales) return scales.faults();
    desk.scales_ = std::move(*scales);
    // Before anything is read: what comes into the log later is told apart by it.
    if (auto now = desk.log_->changed_since({}, {})) desk.looking_.state = std::move(now->state);
    if (auto read = desk.read_clinic(); !read) return read.faults();
    auto patients = desk.log_->patients();
    if (!patients) return patients.faults();
    desk.patients_ = std::move(*patients);
    return desk;
}

Result<Done> Desk::read_clinic() {
    auto events = log_->read({});
    if (!events) return events.faults();
    clinic_ = fold_clinic(*events);
    formulary_ = formulary_in_force(shipped_formulary_, clinic_);
    rules_ = rules_in_force(shipped_rules_, clinic_);
    forget_lines();
    return Done{};
}

Clinic Desk::clinic() const {
    return clinic_.clinic ? clinic_.clinic->value : Clinic{};
}

Result<const PatientRecord*> Desk::record(const PatientId& patient) {
    if (const auto known = records_.find(patient); known != records_.end()) {
        std::erase(recent_, patient);
        recent_.push_back(patient);
        return &known->second;
    }
    if (std::ranges::find(patients_, patient) == patients_.end())
        return Fault{"patient-unknown", patient, {{"text", patient}}};
    auto folded = log_->folded(patient);
    if (!folded) return folded.faults();
    recent_.push_back(patient);
    if (recent_.size() > kRecordsKept) {
        records_.erase(recent_.front());
        recent_.pop_front();
    }
    return &(records_[patient] = std::move(*folded));
}

/// A record that is looked at once and let go.
Result<PatientRecord> Desk::fold_aside(const PatientId& patient) {
    return log_->folded(patient);
}

void Desk::forget(const PatientId& patient) {
    records_.erase(patient);
    std::erase(recent_, patient);
    lines_.erase(patient);
    looking_.failed.erase(patient);
    looking_.behind.insert(patient);
}

Result<Course> Desk::course(const PatientId& patient, LocalTime as_of) {
    auto found = record(patient);
    if (!found) return found.faults();
    return derive_course(**found, formulary_, rules_, as_of);
}

Result<PatientId> Desk::add_person(const Person& person, Day today) {
    Faults faults = check_change(person, formulary_, today);
    // No line is derived and kept here: it would be of another hour than the list's.
    const auto reference_of = [this](const PatientId& patient) {
        if (const auto kept = lines_.find(patient); kept != lines_.end()) return kept->second.line.reference;
        const auto folded = fold_aside(patient);
        return folded && folded->person ? folded->person->value.reference : std::string();
    };
    for (const PatientId& patient : patients_) {
        if (!person.reference.empty() && reference_of(patient) == person.reference)
            faults.push_back({"person-reference-taken", "reference", {{"text", person.reference}}});
    }
    if (!faults.empty()) return faults;
    const PatientId patient = log_->new_id();
    auto written = log_->append({write_change(log_->new_id(), patient, person)});
    if (!written) return written.faults();
    patients_.push_back(patient);
    looking_.own.insert(patient);
    looking_.behind.insert(patient);
    return patient;
}

std::vector<Objection> Desk::objections(const PatientId& patient, const Change& change, LocalTime as_of) {
    const PatientRecord empty;
    const auto known = patient.empty() ? Result<const PatientRecord*>(&empty) : record(patient);
    if (!known) return {};
    return object_to(change, **known, ground(), as_of);
}

Faults Desk::check(const PatientId& patient, const Change& change, LocalTime as_of) {
    Faults faults = check_change(change, formulary_, day_of(as_of));
    if (!may(worker_.role, kind_of(change)))
        faults.push_back({"role-may-not", std::string(kind_of(change)), {{"role", word(worker_.role)}}});
    if (patient.empty() != is_clinic_change(change) && !std::holds_alternative<EntryAmended>(change))
        faults.push_back({"change-misplaced", std::string(kind_of(change)), {}});
    if (const auto* changed = std::get_if<RuleChanged>(&change))
        for (Fault& fault : check_rule(*changed, shipped_rules_)) faults.push_back(std::move(fault));
    if (const auto* amended = std::get_if<EntryAmended>(&change)) {
        const auto known = record(patient);
        const bool found = known && std::ranges::any_of((*known)->lines, [&](const HistoryLine& line) {
                               return line.id == amended->event && line.standing == Standing::counts;
                           });
        if (!patient.empty() && !found) faults.push_back({"entry-unknown", amended->event, {}});
    }
    if (const auto known = patient.empty() ? Result<const PatientRecord*>(nullptr) : record(patient);
        known && *known)
        for (Fault& fault : check_against_record(change, **known, rules_, day_of(as_of)))
            faults.push_back(std::move(fault));
    return faults;
}

/// New entries are added to the record where they can be: it is read again only where they take something
/// back or belong before what is there.
void Desk::add_to_record(const PatientId& patient, const std::vector<StoredEvent>& written) {
    std::optional<PatientRecord> record;
    if (const auto known = records_.find(patient); known != records_.end()) {
        record = std::move(known->second);
        for (const StoredEvent& event : written)
            if (record) record = apply(std::move(*record), event);
    }
    if (!record) return forget(patient);
    records_[patient] = std::move(*record);
    lines_.erase(patient);
    looking_.behind.insert(patient);
}

Result<Done> Desk::carry_out(const PatientId& patient, std::vector<Change> changes,
                             const std::vector<Override>& overrides, LocalTime as_of) {
    if (!patient.empty()) {
        const auto known = record(patient);
        if (!known) return known.faults();
    }
    Faults faults;
    std::vector<Event> events;
    for (Change& change : changes) {
        for (Fault& fault : check(patient, change, as_of)) faults.push_back(std::move(fault));
        std::vector<Override> given;
        for (const Objection& objection : objections(patient, change, as_of)) {
            const Override* answer = answer_to(objection, overrides, rules_);
            if (!answer || !objection.can_be_overridden)
                faults.push_back(
                    {"change-objected", objection.flag.rule, {{"rule", rules_.sentence(objection.flag)}}});
            else if (std::ranges::find(given, *answer) == given.end())
                given.push_back(*answer);
        }
        if (!given.empty() && worker_.role != Role::prescriber)
            faults.push_back(
                {"role-may-not-override", std::string(kind_of(change)), {{"role", word(worker_.role)}}});
        if (auto* plan = std::get_if<PlanCommitted>(&change)) {
            plan->overrides = given;
            plan->signed_by = {worker_.name, worker_.licence};
        }
        const EventId id = log_->new_id();
        events.push_back(write_change(id, patient, change));
        if (!given.empty() && !std::holds_alternative<PlanCommitted>(change))
            events.push_back(write_change(log_->new_id(), patient, RuleOverridden{id, given}));
    }
    if (!faults.empty()) return faults;
    auto written = log_->append(std::move(events));
    if (!written) return written.faults();
    if (patient.empty()) {
        // It is written: a clinic that cannot be read again now is told of when it is opened next.
        [[maybe_unused]] const auto read = read_clinic();
        looking_.own_clinic = true;
    } else {
        add_to_record(patient, *written);
        looking_.own.insert(patient);
    }
    return Done{};
}

Result<Done> Desk::amend(const PatientId& patient, const EventId& event, const std::string& reason,
                         LocalTime as_of) {
    return carry_out(patient, {EntryAmended{event, reason}}, {}, as_of);
}

Result<Done> Desk::take_up(const std::vector<PatientId>& patients) {
    auto known = log_->patients();
    if (!known) return known.faults();
    patients_ = std::move(*known);
    for (const PatientId& patient : patients) {
        forget(patient);
        looking_.own.insert(patient);
    }
    const bool clinic_too = std::ranges::find(patients, PatientId()) != patients.end();
    looking_.own_clinic = looking_.own_clinic || clinic_too;
    if (!clinic_too) return Done{};
    // Somebody may have been closed there: what they wrote since counts no longer, in anybody's record.
    records_.clear();
    recent_.clear();
    return read_clinic();
}

}  // namespace evenfall
