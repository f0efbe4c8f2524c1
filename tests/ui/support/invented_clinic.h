// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "shell/workbench.h"

namespace evenfall::ui {

/// The day and time on which the invented clinic works.
inline LocalTime invented_now() {
    return at_clock(day_at(2026, 11, 24), ClockTime{9 * 60 + 30});
}

/// A workbench over a log in memory, with the shipped formulary, rules and texts, and nobody in it.
inline std::unique_ptr<Workbench> empty_workbench(Role role = Role::prescriber) {
    auto formulary = load_formulary(resources_folder() / "formulary.json");
    auto rules = Rules::load(resources_folder() / "rules.json");
    auto texts = Texts::load(resources_folder(), "en");
    if (!formulary || !rules || !texts) throw std::runtime_error("the shipped resources do not load");
    const Worker worker{"mk", "Mara Keel", role, "L-1"};
    auto log = log_in_memory(worker.id, [] { return Instant(std::chrono::seconds(1'795'512'600)); });
    auto desk = Desk::open(std::move(log), std::move(*formulary), std::move(*rules), worker);
    if (!desk) throw std::runtime_error("the desk does not open");
    return std::make_unique<Workbench>(std::move(*desk), std::move(*texts), invented_now);
}

inline PatientId add_person(Workbench& workbench, const std::string& name, const std::string& reference) {
    Person person;
    person.name = name;
    person.reference = reference;
    person.born = day_at(1968, 4, 2);
    auto added = workbench.desk().add_person(person, workbench.today());
    if (!added) throw std::runtime_error("the person was refused");
    return *added;
}

inline RegimenRecorded diazepam_regimen(Day from) {
    RegimenRecorded recorded;
    recorded.regimen.from = from;
    recorded.regimen.regimen.doses = {
        {ClockTime{8 * 60}, "diazepam", Dose::milligrams(8), "", ""},
        {ClockTime{14 * 60}, "diazepam", Dose::micrograms(4'500), "", "tension at work"},
        {ClockTime{22 * 60}, "diazepam", Dose::milligrams(8), "with milk", "to sleep"}};
    return recorded;
}

/// A person on diazepam with a risk screen, other medicines, goals and supports.
inline PatientId add_jonas(Workbench& workbench) {
    const PatientId id = add_person(workbench, "Jonas Hale", "0417");
    const Day today = workbench.today();
    RiskScreen risks;
    for (const std::string& word : kRiskWords) risks.answers[word] = Answer::no;
    risks.answers["opioid"] = Answer::yes;
    risks.answers["lives alone"] = Answer::yes;
    risks.answers["driving work"] = Answer::not_asked;
    const Supports supports{
        {{"Ida Hale", "sister", "555-0171", true}, {"R. Osei", "therapist", "555-0144", false}},
        "after 17:00"};
    auto done = workbench.desk().carry_out(
        id,
        {diazepam_regimen(today - std::chrono::days(60)), risks,
         OtherMedicines{{{"oxycodone", "another prescriber"}}, true},
         Goals{{"Walk the dog daily", "Sleep before 1", "Keep Tuesday choir"}, 6, ""}, supports,
         ContactPlanned{today + std::chrono::days(2), "call"},
         SupplyCounted{today,
                       {{{"diazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}}, 100, {}}}}},
        {}, workbench.now());
    if (!done) throw std::runtime_error(workbench.texts().text(done.faults().front()));
    return id;
}

/// Jonas and a few others, none of them real.
inline std::unique_ptr<Workbench> small_clinic(Role role = Role::prescriber) {
    auto workbench = empty_workbench(role);
    const PatientId jonas = add_jonas(*workbench);
    int number = 500;
    for (const char* name :
         {"Ada Ferrow", "Mirjam Oyelaran", "Tomas Brandt", "Edith Quill", "Peregrine Voss", "Salma Idris"}) {
        const PatientId id = add_person(*workbench, name, std::to_string(number++));
        if (number % 2 == 0) continue;
        (void)workbench->desk().carry_out(id, {diazepam_regimen(workbench->today() - std::chrono::days(30))},
                                          {}, workbench->now());
    }
    return workbench;
}

}  // namespace evenfall::ui
