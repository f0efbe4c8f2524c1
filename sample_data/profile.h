// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_data/story.h"

namespace evenfall::sample {

/// What is taken stock of when a record is opened.
struct Profile {
    std::vector<std::string> risks{};  ///< answered yes; all others no
    std::string risk_note{};
    History history{};
    Goals goals{};
    Supports supports{};
    std::string substances = "No alcohol, no other substances; two coffees before noon.";
    CuttingAbility cutting{};
    OtherMedicines others{};
    std::map<std::string, int> baseline{};
    std::string baseline_note{};
    std::vector<Product> products{};
    SuitabilityOutcome outcome = SuitabilityOutcome::outpatient_taper;
    std::string reason{};  ///< of the outcome
};

/// Writes all of it: most on the day of opening, baseline and suitability a week later.
void take_stock(Story& story, const Profile& profile, Draws& draws);

/// Only who they are and what the first call told: the rest is still open.
void begin_intake(Story& story, const Profile& profile);

}  // namespace evenfall::sample
