// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "kinetics/steady.h"

namespace evenfall::kinetics {

/// How much of one cut has arrived in the body: (level without this cut − level with it) ÷ the difference of
/// their steady states, as averages over the last 24 hours. 0 at the cut, towards 1. Later and earlier cuts
/// do not enter (the model is linear). Empty where the daily amount does not change. `hours` is the time from
/// the start of the cut's first civil day to now; 0 or less gives 0.
std::optional<double> share_arrived(const Model& model, const std::vector<DailyDose>& before,
                                    const std::vector<DailyDose>& after, double hours);

/// Over the published range of half-lives of parent and metabolites.
struct ShareArrived {
    double least = 0, middle = 0, most = 0;

    bool operator==(const ShareArrived&) const = default;
};
/// REQUIRES constants that `Model::make` takes.
std::optional<ShareArrived> share_arrived_range(const Kinetics& kinetics, const std::string& drug,
                                                const std::vector<DailyDose>& before,
                                                const std::vector<DailyDose>& after, double hours);

}  // namespace evenfall::kinetics
