// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/between_dose.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <random>

#include "diary/statistics.h"

namespace evenfall {

namespace {

using Numbers = std::vector<double>;

/// A share of variance that is rounding noise.
constexpr double kNothingLeft = 1e-9;

double dot(const Numbers& a, const Numbers& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

void subtract(Numbers& from, double times, const Numbers& what) {
    for (std::size_t i = 0; i < from.size(); ++i) from[i] -= times * what[i];
}

void centre(Numbers& values) {
    const double middle = mean(values);
    for (double& value : values) value -= middle;
}

/// Orthonormal directions that span one 24-hour harmonic at the ratings' clock times, the constant taken out.
/// Fewer than two where the clock times cannot tell cosine from sine (all ratings at one or two times of
/// day).
std::vector<Numbers> harmonic(const std::vector<IntervalRating>& ratings) {
    Numbers cosine, sine;
    for (const IntervalRating& each : ratings) {
        const double angle = 2 * std::numbers::pi * each.clock_h / 24;
        cosine.push_back(std::cos(angle));
        sine.push_back(std::sin(angle));
    }
    std::vector<Numbers> basis;
    for (Numbers wave : {cosine, sine}) {
        centre(wave);
        for (const Numbers& each : basis) subtract(wave, dot(wave, each), each);
        const double length = std::sqrt(dot(wave, wave));
        if (length < 1e-9 * std::sqrt(static_cast<double>(ratings.size()))) continue;
        for (double& value : wave) value /= length;
        basis.push_back(wave);
    }
    return basis;
}

void take_out(Numbers& values, const std::vector<Numbers>& basis) {
    centre(values);
    for (const Numbers& each : basis) subtract(values, dot(values, each), each);
}

/// Severities as deviations from the mean of their symptom, so that unlike symptoms can be pooled.
Numbers within_symptom(const std::vector<IntervalRating>& ratings) {
    std::map<int, std::pair<double, int>> sums;
    for (const IntervalRating& each : ratings) {
        sums[each.group].first += each.severity;
        ++sums[each.group].second;
    }
    Numbers values;
    for (const IntervalRating& each : ratings)
        values.push_back(each.severity - sums[each.group].first / sums[each.group].second);
    return values;
}

/// How many values each one exceeds minus how many exceed it: 2 × mid-rank − n − 1. Differences below
/// rounding noise are ties.
Numbers rank_scores(const Numbers& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    Numbers scores(values.size());
    const auto n = static_cast<double>(values.size());
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first + 1;
        while (last < order.size() && values[order[last]] - values[order[last - 1]] < 1e-9) ++last;
        for (std::size_t i = first; i < last; ++i)
            scores[order[i]] = static_cast<double>(first) - (n - static_cast<double>(last));
        first = last;
    }
    return scores;
}

/// The sum over all pairs of their distance.
double sum_of_distances(Numbers values) {
    std::sort(values.begin(), values.end());
    double sum = 0;
    const auto n = static_cast<double>(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) sum += values[i] * (2 * static_cast<double>(i) + 1 - n);
    return sum;
}

/// Probability of superiority with a graded indicator: each pair counts by how much later one of the two is.
/// With a plain 0/1 indicator this is U ÷ (late × early).
double superiority(const Numbers& indicator, const Numbers& scores) {
    const double distances = sum_of_distances(indicator);
    return distances > 0 ? 0.5 + dot(indicator, scores) / (2 * distances) : 0.5;
}

/// Shuffles within days, by one seeded generator: the same on every machine.
class DayShuffle {
  public:
    DayShuffle(const std::vector<IntervalRating>& ratings, std::uint64_t seed) : random_(seed) {
        std::map<int, std::vector<std::size_t>> by_day;
        for (std::size_t i = 0; i < ratings.size(); ++i) by_day[ratings[i].day].push_back(i);
        for (auto& [day, members] : by_day)
            if (members.size() > 1) strata_.push_back(std::move(members));
    }

    void operator()(Numbers& values) {
        for (const auto& members : strata_)
            for (std::size_t left = members.size(); left > 1; --left)
                std::swap(values[members[left - 1]], values[members[below(left)]]);
    }

  private:
    /// A number below `limit` by the upper half of a product: no division, no visible bias at these sizes.
    std::size_t below(std::size_t limit) {
        return static_cast<std::size_t>(((random_() >> 32U) * static_cast<std::uint64_t>(limit)) >> 32U);
    }

    std::mt19937_64 random_;
    std::vector<std::vector<std::size_t>> strata_;
};

double p_value(const std::vector<IntervalRating>& ratings, const Numbers& indicator, Numbers scores,
               const BetweenDoseSettings& settings) {
    const double seen = dot(indicator, scores) - 1e-9 * static_cast<double>(ratings.size());
    DayShuffle shuffle(ratings, settings.seed);
    int as_large = 0;
    for (int i = 0; i < settings.permutations; ++i) {
        shuffle(scores);
        if (dot(indicator, scores) >= seen) ++as_large;
    }
    return static_cast<double>(1 + as_large) / static_cast<double>(1 + settings.permutations);
}

BetweenDoseAnswer answer_of(const BetweenDose& result, const BetweenDoseSettings& settings) {
    if (result.variance_left < settings.least_variance_left) return BetweenDoseAnswer::cannot_be_separated;
    return result.p_value <= settings.p_limit ? BetweenDoseAnswer::shown : BetweenDoseAnswer::not_shown;
}

}  // namespace

BetweenDose between_dose(const std::vector<IntervalRating>& ratings, const BetweenDoseSettings& settings) {
    BetweenDose result;
    result.ratings = static_cast<int>(ratings.size());
    Numbers indicator;
    for (const IntervalRating& each : ratings) {
        result.late += each.late ? 1 : 0;
        indicator.push_back(each.late ? 1 : 0);
    }
    if (std::min(result.late, result.ratings - result.late) < settings.least_each) return result;

    Numbers severity = within_symptom(ratings);
    const Numbers raw_scores = rank_scores(severity);
    result.late_over_early_raw = superiority(indicator, raw_scores);
    const std::vector<Numbers> rhythm = harmonic(ratings);
    Numbers cleared = indicator;
    take_out(cleared, rhythm);
    centre(indicator);
    result.variance_left = dot(cleared, cleared) / dot(indicator, indicator);
    if (result.variance_left <
        kNothingLeft) {  // nothing to rank by: the numbers are those of the ratings as they are
        result.late_over_early = result.late_over_early_raw;
        result.p_value = p_value(ratings, indicator, raw_scores, settings);
    } else {
        take_out(severity, rhythm);
        const Numbers scores = rank_scores(severity);
        result.late_over_early = superiority(cleared, scores);
        result.p_value = p_value(ratings, cleared, scores, settings);
    }
    result.answer = answer_of(result, settings);
    return result;
}

}  // namespace evenfall
