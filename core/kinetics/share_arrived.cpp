// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/share_arrived.h"

#include <algorithm>
#include <cmath>

namespace evenfall::kinetics {

std::optional<double> share_arrived(const Model& model, const std::vector<DailyDose>& before,
                                    const std::vector<DailyDose>& after, double hours) {
    const double difference = daily_mg(before) - daily_mg(after);
    // Amounts are whole nanograms: below half of one the daily amount is the same.
    if (std::abs(difference) < 0.5e-6) return std::nullopt;
    if (!(hours > 0)) return 0.0;
    std::vector<DailyDose> missing = before;
    for (const DailyDose& dose : after) missing.push_back({dose.at_h, -dose.mg});
    const std::vector<TimedDose> doses = repeated(missing, static_cast<int>(std::ceil(hours / 24)) + 1);
    const double average = relative_averages(model, Start{}, doses, Grid{hours, 1, 1}).front();
    // Up to the cut there is no difference: the average over a day counts those hours as none.
    return average * std::min(hours, 24.0) / 24 / difference;
}

std::optional<ShareArrived> share_arrived_range(const Kinetics& kinetics, const std::string& drug,
                                                const std::vector<DailyDose>& before,
                                                const std::vector<DailyDose>& after, double hours) {
    const auto share = [&](const Kinetics& constants) {
        return share_arrived(Model::make(constants, drug).value(), before, after, hours);
    };
    const std::optional<double> middle = share(kinetics), fast = share(fast_end(kinetics)),
                                slow = share(slow_end(kinetics));
    if (!middle) return std::nullopt;
    const auto [least, most] = std::minmax({*middle, *fast, *slow});
    return ShareArrived{least, *middle, most};
}

}  // namespace evenfall::kinetics
