// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/regimen.h"

#include <algorithm>

namespace evenfall {

Dose daily_amount(const Regimen& regimen, const std::string& drug) {
    Dose total;
    for (const DoseTime& dose : regimen.doses)
        if (dose.drug == drug) total += dose.amount;
    return total;
}

std::vector<std::string> agents_of(const Regimen& regimen) {
    std::vector<std::string> agents;
    for (const DoseTime& dose : regimen.doses)
        if (std::find(agents.begin(), agents.end(), dose.drug) == agents.end()) agents.push_back(dose.drug);
    return agents;
}

}  // namespace evenfall
