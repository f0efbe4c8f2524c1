// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/steady.h"

#include <algorithm>
#include <cmath>

#include "kinetics/day_scan.h"

namespace evenfall::kinetics {

Start steady_start(const Model& model, const std::vector<DailyDose>& doses, double clock_h, double time_h) {
    // What one day's doses leave at the end of the day, when they are given as they arrive.
    const Chain& chain = model.chain();
    Start start{time_h, {}, {}};
    State left{};
    for (const DailyDose& dose : doses) {
        // Hours from the start's clock time to the dose's arrival, 0 up to 24.
        double arrives = std::fmod(dose.at_h + model.lag_h() - clock_h, 24);
        if (arrives < 0) arrives += 24;
        if (24 - arrives < 1e-8) arrives = 0;
        const Matrix m = transition(chain, 24 - arrives);
        for (std::size_t i = 0; i < chain.size; ++i)
            left[i] += m.at(i, 0) * dose.mg * model.bioavailability();
        // Taken before the start, arriving at or after it.
        for (double taken = time_h + arrives - model.lag_h(); taken < time_h - 1e-8; taken += 24)
            start.pending.push_back({taken, dose.mg});
    }
    start.state = solve_repeating(chain, transition(chain, 24), left);
    return start;
}

std::vector<TimedDose> repeated(const std::vector<DailyDose>& doses, int days, double time_h,
                                double clock_h) {
    std::vector<TimedDose> result;
    for (int day = 0; day < days; ++day)
        for (const DailyDose& dose : doses) {
            const double after = dose.at_h - clock_h < 0 ? dose.at_h - clock_h + 24 : dose.at_h - clock_h;
            result.push_back({time_h + 24.0 * day + after, dose.mg});
        }
    std::sort(result.begin(), result.end());
    return result;
}

std::vector<double> day_curve(const Model& model, const std::vector<DailyDose>& doses, double step_h) {
    const auto count = static_cast<std::size_t>(std::lround(24 / step_h)) + 1;
    // The dose at the end of the day is that of the next day's start.
    return relative_levels(model, steady_start(model, doses), repeated(doses, 2), Grid{0, step_h, count});
}

DayProfile day_profile(const Model& model, const std::vector<DailyDose>& doses, double under_share) {
    DayProfile profile;
    profile.average = daily_mg(doses);
    if (!(profile.average > 0)) return profile;
    const DayExtremes extremes = scan_day(model, doses, under_share * profile.average);
    profile.peak = extremes.highest.value;
    profile.peak_at_h = extremes.highest.at_h;
    profile.trough = extremes.lowest.value;
    profile.trough_at_h = extremes.lowest.at_h;
    profile.fluctuation = (profile.peak - profile.trough) / profile.average;
    profile.hours_under = extremes.hours_under;
    return profile;
}

}  // namespace evenfall::kinetics
