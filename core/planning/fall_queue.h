// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <deque>
#include <optional>
#include <span>
#include <vector>

namespace evenfall::planning {

/// For each daily total u, ascending, the total v ≤ u with least(u) ≤ v that makes
/// value(v) + (ln u - ln v - target)² least: the cost of a fall where nothing else depends on the pair.
///
/// The cost is convex in ln u - ln v, so the best v never goes down as u goes up; each v is then best over
/// one stretch of u, and the stretches stand in a queue. O(log n) for each total instead of a look at every v
/// (the concave-convex least-weight scheme of Galil and Park, Theoretical Computer Science 92, 1992, from
/// memory). A v that falls out of the cap counts as beaten, which keeps the order.
class FallQueue {
  public:
    /// `logs[u]` is ln u; `least[u]` the lowest total that a fall from u may reach, never going down with u.
    /// Both outlive the queue.
    FallQueue(std::span<const double> logs, std::span<const std::int32_t> least, double target_fall)
        : logs_(logs), least_(least), target_(target_fall) {}

    /// `v` may be fallen to from every u ≥ `from` on. REQUIRES ascending v and ascending `from`.
    void offer(std::int32_t v, double value, std::int32_t from);
    /// The best v for u, where there is any. REQUIRES ascending u, and nothing offered later with from <= u.
    std::optional<std::int32_t> best(std::int32_t u);

  private:
    struct Stretch {
        std::int32_t v;
        double value;
        std::int32_t from;  ///< the first u for which v is best
    };
    double cost(const Stretch& stretch, std::int32_t u) const;
    bool beats(const Stretch& later, const Stretch& earlier, std::int32_t u) const;

    std::span<const double> logs_;
    std::span<const std::int32_t> least_;
    double target_;
    std::deque<Stretch> stretches_;
};

}  // namespace evenfall::planning
