// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/shape.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <numeric>

namespace evenfall::planning {

namespace {

constexpr std::size_t kMostFound = 32;
constexpr int kMostTried = 4096;

}  // namespace

struct ShapeGrid::Search {
    std::vector<std::vector<std::int32_t>> candidates;
    std::vector<std::int32_t> least_after, most_after;  // sums of what the dose times from i on can hold
    Amounts now;
    std::vector<Amounts> found;
    int tried = 0;
};

ShapeGrid::ShapeGrid(ShapeInput input) : input_(std::move(input)) {
    start_total_ = std::accumulate(input_.start_ng.begin(), input_.start_ng.end(), std::int64_t{0});
    for (const std::int64_t ng : input_.start_ng)
        most_.push_back(static_cast<std::int32_t>(ng / input_.unit_ng));
    const auto count = static_cast<std::int32_t>(input_.makeable.size());
    below_.assign(input_.makeable.size(), -1);
    above_.assign(input_.makeable.size(), -1);
    for (std::int32_t a = 0, last = -1; a < count; ++a) {
        if (input_.makeable[static_cast<std::size_t>(a)]) last = a;
        below_[static_cast<std::size_t>(a)] = last;
    }
    for (std::int32_t a = count - 1, next = -1; a >= 0; --a) {
        if (input_.makeable[static_cast<std::size_t>(a)]) next = a;
        above_[static_cast<std::size_t>(a)] = next;
    }
}

ShapeGrid::Wish ShapeGrid::wish(std::size_t i, std::int32_t total) const {
    if (input_.shape != Shape::dose_time_first) return {input_.start_ng[i] * total, start_total_};
    const std::int64_t rest = start_total_ - input_.start_ng[input_.first];
    const std::int64_t first_left = total * input_.unit_ng - rest;
    if (first_left >= 0) return {i == input_.first ? first_left : input_.start_ng[i], input_.unit_ng};
    return {i == input_.first ? 0 : input_.start_ng[i] * total, rest};
}

std::vector<std::int32_t> ShapeGrid::candidates(std::size_t i, Wish wish) const {
    std::vector<std::int32_t> found;
    const auto offer = [&](std::int32_t amount) {
        if (amount >= 0 && amount <= most_[i]) found.push_back(amount);
    };
    const auto floor =
        static_cast<std::int32_t>(std::min<std::int64_t>(wish.numerator / wish.denominator, most_[i]));
    const bool exact = wish.numerator == floor * wish.denominator;
    const auto at = [](const std::vector<std::int32_t>& table, std::int32_t amount) {
        return amount >= 0 && amount < static_cast<std::int32_t>(table.size())
                   ? table[static_cast<std::size_t>(amount)]
                   : -1;
    };
    if (exact && at(below_, floor) == floor) {
        offer(floor);
        offer(at(below_, floor - 1));
    } else {
        offer(at(below_, floor));
    }
    offer(at(above_, floor + 1));
    std::sort(found.begin(), found.end(), [&](std::int32_t a, std::int32_t b) {
        const auto off = [&](std::int32_t x) { return std::abs(x * wish.denominator - wish.numerator); };
        return off(a) != off(b) ? off(a) < off(b) : a > b;
    });
    return found;
}

std::vector<Amounts> ShapeGrid::regimens(std::int32_t total) const {
    const std::size_t count = most_.size();
    Search search;
    search.least_after.assign(count + 1, 0);
    search.most_after.assign(count + 1, 0);
    for (std::size_t i = 0; i < count; ++i) {
        search.candidates.push_back(candidates(i, wish(i, total)));
        if (search.candidates.back().empty()) return {};
    }
    const bool night = input_.shape == Shape::larger_at_night;
    for (std::size_t i = count; i-- > 0;) {
        const auto [low, high] =
            std::minmax_element(search.candidates[i].begin(), search.candidates[i].end());
        search.least_after[i] = search.least_after[i + 1] + *low;
        search.most_after[i] = search.most_after[i + 1] + (night && i + 1 == count ? most_[i] : *high);
    }
    search.now.assign(count, 0);
    descend(search, 0, total);
    if (!night) return search.found;
    std::vector<std::int32_t> lasts;
    for (const Amounts& each : search.found) lasts.push_back(each.back());
    std::sort(lasts.begin(), lasts.end(), std::greater<>());
    lasts.erase(std::unique(lasts.begin(), lasts.end()), lasts.end());
    if (lasts.size() > 2)
        std::erase_if(search.found, [&](const Amounts& each) { return each.back() < lasts[1]; });
    return search.found;
}

std::int32_t ShapeGrid::all_fall_beyond() const {
    constexpr std::int64_t kNever = std::numeric_limits<std::int32_t>::max();
    if (input_.shape == Shape::dose_time_first) return kNever;
    std::int64_t gap = 1, total = 0, most = 0;
    for (std::int64_t a = 0, last = 0; a < static_cast<std::int64_t>(input_.makeable.size()); ++a)
        if (input_.makeable[static_cast<std::size_t>(a)]) {
            gap = std::max(gap, a - last);
            last = a;
        }
    for (const std::int32_t amount : most_) total += amount;
    for (std::size_t i = 0; i < most_.size(); ++i) {
        // What rounding leaves over at the other dose times goes to the last one, where that is asked for.
        const bool takes_the_rest = input_.shape == Shape::larger_at_night && i + 1 == most_.size();
        const auto off = static_cast<std::int64_t>(takes_the_rest ? most_.size() : 1) * gap;
        if (most_[i] > 0) most = std::max(most, 2 * off * total / most_[i] + 1);
    }
    return static_cast<std::int32_t>(std::min(most, kNever));
}

void ShapeGrid::descend(Search& search, std::size_t i, std::int32_t left) const {
    if (i + 1 == most_.size()) return close(search, left);
    for (const std::int32_t amount : search.candidates[i]) {
        if (search.found.size() >= kMostFound || ++search.tried > kMostTried) return;
        const std::int32_t after = left - amount;
        if (after < search.least_after[i + 1] || after > search.most_after[i + 1]) continue;
        search.now[i] = amount;
        descend(search, i + 1, after);
    }
}

void ShapeGrid::close(Search& search, std::int32_t left) const {
    const auto& last = search.candidates.back();
    bool fits = std::find(last.begin(), last.end(), left) != last.end();
    if (input_.shape == Shape::larger_at_night)
        fits = left >= *std::min_element(last.begin(), last.end()) && left <= most_.back() &&
               input_.makeable[static_cast<std::size_t>(left)];
    if (!fits) return;
    search.now.back() = left;
    search.found.push_back(search.now);
}

}  // namespace evenfall::planning
