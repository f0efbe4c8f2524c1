// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/dose_times.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "diary/circular.h"

namespace evenfall {

namespace {

/// The distinct minutes of the times, counted from the cut, with how often each occurs.
struct Minutes {
    std::vector<double> at;
    std::vector<double> weight;
};

/// The minute after the widest stretch of the day without a time: where the circle is cut open.
int widest_gap_end(const std::vector<int>& sorted) {
    int end = sorted.front();
    int widest = sorted.front() + 1440 - sorted.back();
    for (std::size_t i = 1; i < sorted.size(); ++i) {
        if (sorted[i] - sorted[i - 1] > widest) {
            widest = sorted[i] - sorted[i - 1];
            end = sorted[i];
        }
    }
    return end;
}

Minutes counted(const std::vector<ClockTime>& times, int cut) {
    std::map<int, int> counts;
    for (const ClockTime time : times) ++counts[(time.minutes - cut + 1440) % 1440];
    Minutes minutes;
    for (const auto& [minute, count] : counts) {
        minutes.at.push_back(minute);
        minutes.weight.push_back(count);
    }
    return minutes;
}

/// Sums that give the squared distances of a stretch to its mean in constant time.
class Stretches {
  public:
    explicit Stretches(const Minutes& minutes) : n_(1, 0), sum_(1, 0), squares_(1, 0) {
        for (std::size_t i = 0; i < minutes.at.size(); ++i) {
            n_.push_back(n_.back() + minutes.weight[i]);
            sum_.push_back(sum_.back() + minutes.weight[i] * minutes.at[i]);
            squares_.push_back(squares_.back() + minutes.weight[i] * minutes.at[i] * minutes.at[i]);
        }
    }
    /// Of the minutes from `from` up to, not with, `to`.
    double cost(std::size_t from, std::size_t to) const {
        const double sum = sum_[to] - sum_[from];
        return squares_[to] - squares_[from] - sum * sum / (n_[to] - n_[from]);
    }

  private:
    std::vector<double> n_, sum_, squares_;
};

/// Where each group begins, for the least sum of squared distances: a table over (groups × minutes).
std::vector<std::size_t> group_starts(const Minutes& minutes, std::size_t groups) {
    const std::size_t n = minutes.at.size();
    const Stretches stretches(minutes);
    std::vector<double> best(n + 1, std::numeric_limits<double>::infinity());
    best[0] = 0;
    std::vector<std::vector<std::size_t>> from(groups, std::vector<std::size_t>(n + 1, 0));
    for (std::size_t g = 0; g < groups; ++g) {
        std::vector<double> next(n + 1, std::numeric_limits<double>::infinity());
        for (std::size_t to = g + 1; to <= n; ++to) {
            for (std::size_t start = g; start < to; ++start) {
                const double cost = best[start] + stretches.cost(start, to);
                if (cost < next[to]) {
                    next[to] = cost;
                    from[g][to] = start;
                }
            }
        }
        best = next;
    }
    std::vector<std::size_t> starts(groups);
    std::size_t end = n;
    for (std::size_t g = groups; g-- > 0;) starts[g] = end = from[g][end];
    return starts;
}

ClockTime centre_of(const std::vector<ClockTime>& times, const std::vector<std::size_t>& members) {
    std::vector<double> minutes;
    minutes.reserve(members.size());
    for (const auto i : members) minutes.push_back(times[i].minutes);
    const double middle = clock_spread(minutes).mean_minutes.value_or(minutes.front());
    return {static_cast<int>(std::lround(middle / 5) * 5) % 1440};
}

Dose most_frequent(const std::vector<Dose>& amounts) {
    std::map<Dose, int> counts;
    for (const Dose amount : amounts) ++counts[amount];
    return std::max_element(counts.begin(), counts.end(),
                            [](const auto& a, const auto& b) { return a.second < b.second; })
        ->first;
}

}  // namespace

std::vector<ClockGroup> group_clock_times(const std::vector<ClockTime>& times, int groups) {
    if (times.empty() || groups < 1) return {};
    std::vector<int> sorted;
    sorted.reserve(times.size());
    for (const ClockTime time : times) sorted.push_back(time.minutes);
    std::sort(sorted.begin(), sorted.end());
    const int cut = widest_gap_end(sorted);
    const Minutes minutes = counted(times, cut);
    const auto starts = group_starts(minutes, std::min(static_cast<std::size_t>(groups), minutes.at.size()));

    std::vector<ClockGroup> result(starts.size());
    for (std::size_t i = 0; i < times.size(); ++i) {
        const double at = (times[i].minutes - cut + 1440) % 1440;
        std::size_t g = starts.size() - 1;
        while (g > 0 && at < minutes.at[starts[g]]) --g;
        result[g].members.push_back(i);
    }
    for (ClockGroup& group : result) group.centre = centre_of(times, group.members);
    std::sort(result.begin(), result.end(),
              [](const ClockGroup& a, const ClockGroup& b) { return a.centre < b.centre; });
    return result;
}

Regimen usual_regimen(const std::vector<Intake>& intake,
                      const std::vector<std::vector<std::size_t>>& entries_by_day, const std::string& drug) {
    std::vector<ClockTime> times;
    std::vector<Dose> amounts;
    std::vector<int> counts;
    for (const auto& entries : entries_by_day) {
        int count = 0;
        for (const auto i : entries) {
            if (intake[i].drug != drug) continue;
            times.push_back(clock_of(intake[i].taken_at));
            amounts.push_back(intake[i].amount);
            ++count;
        }
        counts.push_back(count);
    }
    Regimen regimen;
    if (times.empty()) return regimen;
    std::nth_element(counts.begin(), counts.begin() + static_cast<std::ptrdiff_t>(counts.size() / 2),
                     counts.end());
    const int usual = std::clamp(counts[counts.size() / 2], 1, static_cast<int>(kMostDoseTimes));
    for (const ClockGroup& group : group_clock_times(times, usual)) {
        std::vector<Dose> taken;
        for (const auto i : group.members) taken.push_back(amounts[i]);
        regimen.doses.push_back({group.centre, drug, most_frequent(taken), "", ""});
    }
    return regimen;
}

}  // namespace evenfall
