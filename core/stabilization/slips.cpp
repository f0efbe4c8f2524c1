// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "diary/statistics.h"
#include "stabilization/dosing.h"

namespace evenfall::stabilization {

namespace {

/// The median amount of each agent in the diary, in mg.
std::map<std::string, double> usual_amounts(const std::vector<Intake>& intake) {
    std::map<std::string, std::vector<double>> amounts;
    for (const Intake& each : intake) amounts[each.drug].push_back(each.amount.mg());
    std::map<std::string, double> usual;
    for (auto& [drug, values] : amounts) usual[drug] = percentile(std::move(values), 0.5);
    return usual;
}

}  // namespace

std::vector<bool> likely_slips(const Context& context) {
    const auto usual = usual_amounts(context.input.diary.intake);
    const double least_ratio = context.rules.number("likely-slip", "least_ratio");
    std::vector<bool> slips;
    for (const Intake& each : context.input.diary.intake) {
        const double ratio = each.amount.mg() / usual.at(each.drug);
        const Drug* drug = context.formulary.find(each.drug);
        slips.push_back(ratio >= least_ratio || ratio * least_ratio <= 1 ||
                        (drug != nullptr && looks_like_unit_slip(*drug, each.amount)));
    }
    return slips;
}

}  // namespace evenfall::stabilization
