// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "units/day.h"
#include "units/dose.h"

namespace evenfall {

/// One dose of a day: what is taken at a clock time.
struct DoseTime {
    ClockTime at;
    std::string drug;  ///< generic name, lower case
    Dose amount;
    std::string
        how;  ///< how it is taken, in the person's words ("under the tongue", "with food"); may be empty
    std::string why;  ///< what it is taken for at this hour; may be empty

    friend auto operator<=>(const DoseTime&, const DoseTime&) = default;
};

/// The doses of one day, in order of clock time. At most 24.
struct Regimen {
    std::vector<DoseTime> doses;

    friend auto operator<=>(const Regimen&, const Regimen&) = default;
};

inline constexpr std::size_t kMostDoseTimes = 24;

/// Everything of one agent taken in the day.
Dose daily_amount(const Regimen& regimen, const std::string& drug);
/// The agents of the regimen, in the order of their first dose.
std::vector<std::string> agents_of(const Regimen& regimen);

/// A regimen in force from a civil day on.
struct DatedRegimen {
    Day from{};
    Regimen regimen;

    friend auto operator<=>(const DatedRegimen&, const DatedRegimen&) = default;
};

}  // namespace evenfall
