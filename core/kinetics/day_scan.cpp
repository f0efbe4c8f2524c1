// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/day_scan.h"

#include <algorithm>
#include <cmath>

namespace evenfall::kinetics {
namespace {

constexpr double kSampleH = 1.0 / 60;

/// Walks a smooth piece of the day, from one arrival at the depot to the next, in equal parts of at most a
/// minute.
class DayScan {
  public:
    DayScan(const Model& model, double threshold) : model_(model), threshold_(threshold) {}

    void piece(double from_h, double to_h, State x) {
        const double parts = std::max(1.0, std::ceil((to_h - from_h) / kSampleH));
        part_h_ = (to_h - from_h) / parts;
        const Matrix m = transition(model_.chain(), part_h_);
        see(from_h, relative_level(model_, x));
        for (double i = 0; i < parts; ++i) {
            const State next = times(model_.chain(), m, x);
            part(from_h + i * part_h_, x, next);
            x = next;
        }
    }
    const DayExtremes& found() const { return found_; }

  private:
    double slope(const State& x) const {
        return relative_level(model_, times(model_.chain(), model_.chain().rates, x));
    }

    void see(double at_h, double value) {
        if (first_ || value > found_.highest.value) found_.highest = {value, at_h};
        if (first_ || value < found_.lowest.value) found_.lowest = {value, at_h};
        first_ = false;
    }

    void part(double at_h, const State& x, const State& next) {
        const double value = relative_level(model_, x), next_value = relative_level(model_, next);
        see(at_h + part_h_, next_value);
        if (slope(x) * slope(next) < 0) turning_point(at_h, x);
        const bool under = value < threshold_, next_under = next_value < threshold_;
        if (under && next_under) found_.hours_under += part_h_;
        if (under == next_under) return;
        const double crossing = (threshold_ - value) / (next_value - value) * part_h_;
        found_.hours_under += under ? crossing : part_h_ - crossing;
    }

    /// Halves the part until the zero of the slope is known to a few nanoseconds.
    void turning_point(double at_h, State x) {
        const double before = slope(x);
        for (double half = part_h_ / 2; half > 1e-12; half /= 2) {
            const State middle = times(model_.chain(), transition(model_.chain(), half), x);
            if (slope(middle) * before <= 0) continue;
            x = middle;
            at_h += half;
        }
        see(at_h, relative_level(model_, x));
    }

    const Model& model_;
    double threshold_ = 0;
    double part_h_ = 0;
    bool first_ = true;
    DayExtremes found_;
};

/// The hours at which something reaches the depot, with the ends of the day.
std::vector<double> corners(const Model& model, const std::vector<DailyDose>& doses) {
    std::vector<double> result{0, 24};
    for (const DailyDose& dose : doses) result.push_back(std::fmod(dose.at_h + model.lag_h(), 24));
    std::sort(result.begin(), result.end());
    const auto same = [](double a, double b) { return b - a < 1e-8; };
    result.erase(std::unique(result.begin(), result.end(), same), result.end());
    return result;
}

}  // namespace

DayExtremes scan_day(const Model& model, const std::vector<DailyDose>& doses, double threshold) {
    DayScan scan(model, threshold);
    const Start start = steady_start(model, doses);
    const std::vector<TimedDose> taken = repeated(doses, 2);
    const std::vector<double> ends = corners(model, doses);
    for (std::size_t i = 0; i + 1 < ends.size(); ++i)
        scan.piece(ends[i], ends[i + 1], state_at(model, start, taken, ends[i]));
    return scan.found();
}

}  // namespace evenfall::kinetics
