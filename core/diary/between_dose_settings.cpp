// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/between_dose.h"
#include "rules/rules.h"

namespace evenfall {

BetweenDoseSettings between_dose_settings(const Rules& rules) {
    BetweenDoseSettings settings;
    settings.permutations = rules.whole("between-dose", "permutations");
    settings.least_variance_left = rules.number("between-dose", "least_variance");
    settings.p_limit = rules.number("between-dose-limits", "p_limit");
    settings.least_each = rules.whole("between-dose-limits", "least_each");
    settings.seed = static_cast<std::uint64_t>(rules.whole("between-dose-limits", "seed"));
    return settings;
}

}  // namespace evenfall
