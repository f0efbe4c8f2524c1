// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/fall_queue.h"

#include <algorithm>

namespace evenfall::planning {

double FallQueue::cost(const Stretch& stretch, std::int32_t u) const {
    const double fall = logs_[static_cast<std::size_t>(u)] - logs_[static_cast<std::size_t>(stretch.v)];
    return stretch.value + (fall - target_) * (fall - target_);
}

// Once true for a u it stays true for every u above. Of two that cost the same the smaller fall is taken.
bool FallQueue::beats(const Stretch& later, const Stretch& earlier, std::int32_t u) const {
    return least_[static_cast<std::size_t>(u)] > earlier.v || cost(later, u) <= cost(earlier, u);
}

void FallQueue::offer(std::int32_t v, double value, std::int32_t from) {
    Stretch added{v, value, from};
    while (!stretches_.empty() && beats(added, stretches_.back(), std::max(stretches_.back().from, from)))
        stretches_.pop_back();
    if (!stretches_.empty()) {
        std::int32_t low = std::max(stretches_.back().from, from);  // not beaten there
        auto high = static_cast<std::int32_t>(logs_.size());        // one beyond the last total
        while (high - low > 1) {
            const std::int32_t middle = low + (high - low) / 2;
            (beats(added, stretches_.back(), middle) ? high : low) = middle;
        }
        if (high == static_cast<std::int32_t>(logs_.size())) return;
        added.from = high;
    }
    stretches_.push_back(added);
}

std::optional<std::int32_t> FallQueue::best(std::int32_t u) {
    while (stretches_.size() > 1 && stretches_[1].from <= u) stretches_.pop_front();
    if (stretches_.empty() || stretches_.front().v < least_[static_cast<std::size_t>(u)]) return std::nullopt;
    return stretches_.front().v;
}

}  // namespace evenfall::planning
