// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_data/story.h"

namespace evenfall::sample {

// Each invents one person.

Story steady_on_diazepam(const Teller& teller);
Story worked_clonazepam(const Teller& teller);
Story on_a_liquid(const Teller& teller);
Story on_two_agents(const Teller& teller);
Story older_with_falls(const Teller& teller);
Story with_an_opioid(const Teller& teller);

Story erratic_lorazepam(const Teller& teller);
Story symptoms_late_in_the_interval(const Teller& teller);
Story crossing_over(const Teller& teller);
Story nightly_zopiclone(const Teller& teller);
Story as_needed(const Teller& teller);
Story pregnant(const Teller& teller);
Story just_arrived(const Teller& teller);

Story on_hold(const Teller& teller);
Story near_the_floor(const Teller& teller);
Story finished(const Teller& teller);
Story on_maintenance(const Teller& teller);

Story supply_ends_tomorrow(const Teller& teller);
Story suicidal_thoughts(const Teller& teller);
Story seizure(const Teller& teller);
Story step_due(const Teller& teller);
Story contact_overdue(const Teller& teller);

}  // namespace evenfall::sample
