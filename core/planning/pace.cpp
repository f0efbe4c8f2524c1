// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/pace.h"

#include <algorithm>
#include <cmath>

namespace evenfall::planning {

std::vector<int> stays(const PlanRequest& request, const std::vector<Dose>& daily) {
    const int interval = request.days_per_step;
    const int unit = interval % 7 == 0 ? 7 : 1;
    const double target_fall = -std::log1p(-request.target.value());
    double carried = 0;
    std::vector<int> days;
    for (std::size_t i = 1; i < daily.size(); ++i) {
        double wished = interval;
        if (request.pace == Pace::even && Share::cut(daily[i - 1], daily[i]) > request.target)
            wished = interval * std::log(daily[i - 1].mg() / daily[i].mg()) / target_fall;
        wished += carried;
        const int rounded = static_cast<int>(std::lround(wished / unit)) * unit;
        days.push_back(std::max(interval, rounded));
        carried = wished - days.back();
    }
    return days;
}

}  // namespace evenfall::planning
