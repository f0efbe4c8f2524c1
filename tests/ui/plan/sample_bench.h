// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <stdexcept>

#include "shell/workbench.h"

namespace evenfall::ui::sample {

using std::chrono::days;

inline const Day kToday = day_at(2026, 11, 24);

/// The worked case: clonazepam 1 mg at 08:00 and 1.5 mg at 21:00, with 0.5 mg tablets in quarters and 0.125
/// mg orally disintegrating tablets, everything before a plan taken care of. `now` can be moved on.
struct Bench {
    Day today = kToday;
    std::unique_ptr<Workbench> bench;
    PatientId patient;

    explicit Bench(Role role = Role::prescriber, bool with_regimen = true) {
        const auto resources = resources_folder();
        auto log = log_in_memory("user", [] { return Instant(std::chrono::seconds(1'800'000'000)); });
        Desk desk =
            Desk::open(std::move(log), load_formulary(resources / "formulary.json").value(),
                       Rules::load(resources / "rules.json").value(), {"user", "A. Prescriber", role, "L-1"})
                .value();
        bench = std::make_unique<Workbench>(std::move(desk), Texts::load(resources, "en").value(),
                                            [this] { return at_clock(today, {10 * 60}); });
        Person person;
        person.reference = "0417";
        person.name = "Jonas Hale";
        patient = bench->desk().add_person(person, today).value();
        bench->select(patient);
        bench->show_faults = [](const Faults& faults) {
            throw std::runtime_error(faults.front().id + " at " + faults.front().place);
        };
        if (with_regimen) take_stock();
    }

    void take_stock() {
        RegimenRecorded regimen;
        regimen.regimen = {today - days(60),
                           {{{{8 * 60}, "clonazepam", Dose::milligrams(1), "", ""},
                             {{21 * 60}, "clonazepam", Dose::micrograms(1500), "", ""}}}};
        bench->carry_out({regimen, ProductsChosen{products()}});
        if (bench->desk().worker().role != Role::prescriber) return;
        History history;
        history.treatment = "talking therapy";
        Baseline baseline;
        baseline.on = today;
        RiskScreen screen;
        for (const std::string& question : kRiskWords) screen.answers[question] = Answer::no;
        bench->carry_out({screen});
        bench->carry_out(
            {history, baseline, Suitability{SuitabilityOutcome::outpatient_taper, {}, "steady"}});
    }

    static std::vector<Product> products() {
        return {{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}},
                {"clonazepam", Form::orally_disintegrating_tablet, Dose::micrograms(125), Cuts::whole, {}}};
    }
};

}  // namespace evenfall::ui::sample
