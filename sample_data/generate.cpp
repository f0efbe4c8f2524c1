// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>
#include <stdexcept>

#include "sample_data/caseload.h"
#include "sample_data/people.h"
#include "sample_data/scribe.h"

namespace evenfall::sample {
namespace {

constexpr std::uint64_t kSeed = 4711;

constexpr std::array kPeople = {steady_on_diazepam, worked_clonazepam,
                                on_a_liquid,        on_two_agents,
                                older_with_falls,   with_an_opioid,
                                erratic_lorazepam,  symptoms_late_in_the_interval,
                                crossing_over,      nightly_zopiclone,
                                as_needed,          pregnant,
                                just_arrived,       on_hold,
                                near_the_floor,     finished,
                                on_maintenance,     supply_ends_tomorrow,
                                suicidal_thoughts,  seizure,
                                step_due,           contact_overdue};

Clinic clinic() {
    return {"Harbour Lane Clinic", "555-0140", "555-0141", "911", "988", 28, 5};
}

}  // namespace

Invented invent_caseload(const Formulary& formulary, const Rules& rules) {
    Scribe scribe(formulary, rules);
    scribe.write(clinic());
    Invented invented;
    std::uint64_t seed = kSeed;
    for (const auto& invent : kPeople) {
        Draws draws(seed++);  // a person of their own seed: changing one leaves the others as they are
        try {
            scribe.write(invent({formulary, rules, draws}));
        } catch (const std::runtime_error& refused) {
            invented.refused.emplace_back(refused.what());
        }
    }
    invented.caseload = scribe.caseload();
    return invented;
}

}  // namespace evenfall::sample
