// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinetics/percentiles.h"

#include <algorithm>
#include <cmath>

namespace evenfall::kinetics {
namespace {

constexpr std::size_t kBuckets = 512;

}  // namespace

std::size_t PercentileFinder::bucket_of(double value) const {
    return std::min(static_cast<std::size_t>((value - lowest_) * per_width_), kBuckets - 1);
}

void PercentileFinder::count(std::span<const double> values) {
    lowest_ = values.front();
    double highest = values.front();
    for (const double value : values) {
        lowest_ = value < lowest_ ? value : lowest_;
        highest = value > highest ? value : highest;
    }
    // All values alike, or as good as: one bucket.
    const double width = (highest - lowest_) / kBuckets;
    per_width_ = width > 0 && std::isfinite(1 / width) ? 1 / width : 0;
    counts_.assign(kBuckets, 0);
    bucket_.resize(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        bucket_[i] = static_cast<std::uint16_t>(bucket_of(values[i]));
        ++counts_[bucket_[i]];
    }
}

std::pair<double, double> PercentileFinder::neighbours(std::span<const double> values, std::size_t rank) {
    std::size_t bucket = 0, below = 0;
    while (below + counts_[bucket] <= rank) below += counts_[bucket++];
    // The one after may be in a later bucket: the next that is not empty, where the rank is the last of its
    // own.
    std::size_t last = bucket;
    if (rank + 1 == below + counts_[bucket] && rank + 1 < values.size()) do
            ++last;
        while (counts_[last] == 0);
    // Written without a branch: which values are chosen cannot be foretold.
    chosen_.resize(counts_[bucket] + (last > bucket ? counts_[last] : 0) + 1);
    std::size_t n = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        chosen_[n] = values[i];
        n += bucket_[i] == bucket || bucket_[i] == last ? 1 : 0;
    }
    const auto end = chosen_.end() - 1, nth = chosen_.begin() + static_cast<std::ptrdiff_t>(rank - below);
    std::nth_element(chosen_.begin(), nth, end);
    return {*nth, nth + 1 == end ? *nth : *std::min_element(nth + 1, end)};
}

double PercentileFinder::at_position(std::span<const double> values, double position) {
    const auto rank = static_cast<std::size_t>(position);
    const auto [at, after] = neighbours(values, rank);
    return at + (position - static_cast<double>(rank)) * (after - at);
}

Percentiles PercentileFinder::find(std::span<const double> values) {
    count(values);
    const double last = static_cast<double>(values.size() - 1);
    return {at_position(values, 0.1 * last), at_position(values, 0.5 * last),
            at_position(values, 0.9 * last)};
}

}  // namespace evenfall::kinetics
