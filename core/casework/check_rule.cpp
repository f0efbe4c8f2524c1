// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdlib>

#include "casework/checks.h"

namespace evenfall {
namespace {

/// A value so far from the shipped one is a slip of the hand: another unit, or a digit too many.
constexpr double kFarthest = 100;

bool is_far(double value, double shipped) {
    if (shipped == 0) return value > kFarthest;
    return value < shipped / kFarthest || value > shipped * kFarthest;
}

}  // namespace

Faults check_rule(const RuleChanged& changed, const Rules& shipped) {
    Faults faults;
    const std::string place = changed.rule + "." + changed.name;
    if (changed.reason.empty()) faults.push_back({"reason-missing", "reason", {}});
    const auto laid = shipped.with(changed.rule, changed.name, changed.value);
    if (!laid) {
        faults.insert(faults.end(), laid.faults().begin(), laid.faults().end());
    } else if (is_far(laid->number(changed.rule, changed.name), shipped.number(changed.rule, changed.name))) {
        faults.push_back({"rule-value-far",
                          place,
                          {{"rule", changed.rule},
                           {"name", changed.name},
                           {"value", changed.value},
                           {"shipped", shipped.find(changed.rule)->values.at(changed.name)}}});
    }
    return faults;
}

}  // namespace evenfall
