// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/split.h"

#include <cstdint>
#include <limits>

namespace evenfall::stabilization {

namespace {

/// More units than this in a day are no amount that anyone takes; the table would grow without use.
constexpr std::int64_t kMostUnits = 5000;
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max() / 4;

/// Least costs of filling the last dose times with so many units.
class Shares {
  public:
    Shares(std::vector<std::int64_t> makeable, std::int64_t total, int doses)
        : makeable_(std::move(makeable)), total_(total), doses_(doses) {
        cost_.emplace_back(static_cast<std::size_t>(total + 1), kNever);
        cost_[0][0] = 0;
        for (int d = 1; d <= doses; ++d) add_dose();
    }

    /// In units, the first dose time first; empty where it cannot be done.
    std::vector<std::int64_t> trace() const {
        std::vector<std::int64_t> amounts;
        std::int64_t left = total_;
        if (cost_.back()[static_cast<std::size_t>(left)] >= kNever) return amounts;
        for (int d = doses_; d > 0;
             --d) {  // the earliest takes the smallest amount that keeps the least cost
            for (const std::int64_t amount : makeable_) {
                if (amount > left || before(d, left - amount) >= kNever) continue;
                if (before(d, left - amount) + off(amount) !=
                    cost_[static_cast<std::size_t>(d)][static_cast<std::size_t>(left)])
                    continue;
                amounts.push_back(amount);
                left -= amount;
                break;
            }
        }
        return amounts;
    }

  private:
    std::int64_t before(int d, std::int64_t sum) const {
        return cost_[static_cast<std::size_t>(d - 1)][static_cast<std::size_t>(sum)];
    }
    /// Squared distance from the equal share, in units × doses.
    std::int64_t off(std::int64_t amount) const {
        const std::int64_t distance = amount * doses_ - total_;
        return distance * distance;
    }
    void add_dose() {
        std::vector<std::int64_t> next(static_cast<std::size_t>(total_ + 1), kNever);
        for (std::int64_t sum = 0; sum <= total_; ++sum) {
            const std::int64_t so_far = cost_.back()[static_cast<std::size_t>(sum)];
            if (so_far >= kNever) continue;
            for (const std::int64_t amount : makeable_) {
                if (sum + amount > total_) break;
                auto& cost = next[static_cast<std::size_t>(sum + amount)];
                cost = std::min(cost, so_far + off(amount));
            }
        }
        cost_.push_back(std::move(next));
    }

    std::vector<std::int64_t> makeable_;
    std::int64_t total_;
    int doses_;
    std::vector<std::vector<std::int64_t>> cost_;
};

}  // namespace

std::optional<std::vector<Dose>> split_evenly(Dose total, int doses, const PieceTable& table) {
    const std::int64_t unit = table.unit().ng();
    if (doses < 1 || unit <= 0 || total.ng() <= 0 || total.ng() % unit != 0) return std::nullopt;
    if (total.ng() / unit > kMostUnits) return std::nullopt;
    std::vector<std::int64_t> makeable;
    for (const Dose amount : table.makeable())
        if (!amount.is_zero() && amount <= total) makeable.push_back(amount.ng() / unit);
    const auto units = Shares(std::move(makeable), total.ng() / unit, doses).trace();
    if (units.empty()) return std::nullopt;
    std::vector<Dose> amounts;
    amounts.reserve(units.size());
    for (const std::int64_t each : units) amounts.push_back(Dose::nanograms(each * unit));
    return amounts;
}

}  // namespace evenfall::stabilization
