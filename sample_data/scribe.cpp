// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/scribe.h"

#include <algorithm>
#include <stdexcept>

#include "papers/code.h"

namespace evenfall::sample {
namespace {

constexpr std::uint64_t kIdSeed = 20261221;

Desk open_desk(const std::shared_ptr<Ledger>& ledger, const Formulary& formulary, const Rules& rules) {
    auto log = std::make_unique<SeededLog>(kIdSeed, ledger);
    return Desk::open(std::move(log), formulary, rules,
                      {"sample", "R. Vantongeren", Role::prescriber, "HL-2214"})
        .value();
}

/// A number of the range that is kept for invented people, by the last digits of the reference.
Person with_phone(Person person) {
    if (person.phone.empty() && person.reference.size() > 2)
        person.phone = "555-01" + person.reference.substr(person.reference.size() - 2);
    return person;
}

}  // namespace

Scribe::Scribe(const Formulary& formulary, const Rules& rules) : desk_(open_desk(ledger_, formulary, rules)) {
}

void Scribe::refuse(const std::string& name, const Faults& faults) const {
    std::string text = name + ":";
    for (const Fault& fault : faults) {
        text += "\n  " + fault.id + " " + fault.place;
        for (const auto& [key, value] : fault.args) text += " " + key + "=" + value;
    }
    throw std::runtime_error(text);
}

void Scribe::write(const Clinic& clinic) {
    const LocalTime founded = at_clock(day_at(2025, 1, 6), {9 * 60});
    set_clock(founded);
    if (auto done = desk_.carry_out({}, {clinic}, {}, founded); !done) refuse(clinic.name, done.faults());
}

/// Commitments and schedules name the commitment in force, whose id is known only once it is written.
void Scribe::name_plan(const PatientId& patient, Change& change) {
    const PatientRecord& record = **desk_.record(patient);
    const auto* plan = plan_in_force(record);
    if (!plan) return;
    if (auto* committed = std::get_if<PlanCommitted>(&change)) committed->replaces = plan->id;
    if (auto* paper = std::get_if<PaperIssued>(&change); paper && paper->paper == "schedule") {
        paper->plan = plan->id;
        paper->code = papers::paper_code(plan->id);
    }
}

void Scribe::write(const Story& story) {
    set_clock(at_clock(story.opened, {9 * 60}));
    const auto patient = desk_.add_person(with_phone(story.person), story.opened);
    if (!patient) refuse(story.person.name, patient.faults());
    std::vector<Written> written = story.written;
    std::ranges::stable_sort(written, {}, &Written::at);
    for (Written& each : written) {
        if (each.at > kTold) throw std::runtime_error(story.person.name + ": written after the time told");
        set_clock(each.at);
        name_plan(*patient, each.change);
        const auto done = desk_.carry_out(*patient, {each.change}, story.overrides, each.at);
        if (!done) refuse(story.person.name + ", " + print_local_time(each.at), done.faults());
    }
}

}  // namespace evenfall::sample
