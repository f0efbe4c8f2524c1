// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <vector>

#include "planning/path.h"

// The way down once more, by trying every sequence of regimens: an independent statement of the same problem
// (maths: Taper), for cases that are small enough.

namespace evenfall::reference {

class EveryWayDown {
  public:
    using Amounts = planning::Amounts;

    EveryWayDown(const PieceTable& pieces, const planning::PathQuery& query)
        : pieces_(pieces), query_(query), end_(query.end) {
        if (!end_) end_ = least_reached(query.from);
    }

    std::int32_t end() const { return *end_; }
    /// The least cost, or nothing where the end is never reached.
    std::optional<double> cost() const {
        return end_ == total(query_.from) ? std::nullopt : best(query_.from, true);
    }
    long tried() const { return tried_; }

  private:
    static std::int32_t total(const Amounts& amounts) {
        return std::accumulate(amounts.begin(), amounts.end(), 0);
    }
    Dose dose(std::int32_t units) const { return pieces_.unit() * units; }
    bool makes(std::int32_t units) const { return pieces_.makes(dose(units)); }

    // The even shape: at the wish start_i × total / start, or one makeable amount to either side.
    bool keeps_shape(const Amounts& amounts) const {
        const double share = static_cast<double>(total(amounts)) / total(query_.from);
        for (std::size_t i = 0; i < amounts.size(); ++i) {
            if (!makes(amounts[i])) return false;
            const double wish = query_.from[i] * share;
            for (std::int32_t between = amounts[i] + 1; between < wish - 1e-9; ++between)
                if (makes(between)) return false;
            for (std::int32_t between = amounts[i] - 1; between > wish + 1e-9; --between)
                if (makes(between)) return false;
        }
        return true;
    }
    static int changes(const Amounts& u, const Amounts& v) {
        int changed = 0;
        for (std::size_t i = 0; i < u.size(); ++i) changed += u[i] != v[i];
        return changed;
    }
    // A dose time that ends does so in a step of its own.
    static bool may_follow(const Amounts& u, const Amounts& v) {
        for (std::size_t i = 0; i < u.size(); ++i)
            if (u[i] > 0 && v[i] == 0 && changes(u, v) > 1) return false;
        return true;
    }
    void each_below(const Amounts& from, Amounts& now, std::size_t i, std::vector<Amounts>& found) const {
        if (i == from.size()) {
            if (total(now) > 0 && total(now) < total(from) && keeps_shape(now) && may_follow(from, now) &&
                (!end_ || total(now) >= *end_))
                found.push_back(now);
            return;
        }
        for (now[i] = 0; now[i] <= from[i]; ++now[i]) each_below(from, now, i + 1, found);
        now[i] = 0;
    }
    std::vector<Amounts> next(const Amounts& from) const {
        std::vector<Amounts> below, within;
        Amounts now(from.size(), 0);
        each_below(from, now, 0, below);
        std::int32_t smallest_cut_to = 0;
        for (const Amounts& each : below) smallest_cut_to = std::max(smallest_cut_to, total(each));
        const bool keeps_cap = Share::of(total(from) - smallest_cut_to, total(from)) <= query_.cap;
        for (const Amounts& each : below) {
            const bool allowed = keeps_cap ? Share::of(total(from) - total(each), total(from)) <= query_.cap
                                           : total(each) == smallest_cut_to;
            if (allowed) within.push_back(each);
        }
        return within;
    }
    std::int32_t least_reached(const Amounts& from) const {
        if (const auto known = least_.find(from); known != least_.end()) return known->second;
        std::int32_t least = total(from);
        for (const Amounts& each : next(from)) least = std::min(least, least_reached(each));
        return least_[from] = least;
    }
    double step(const Amounts& u, const Amounts& v) const {
        std::vector<Dose> day;
        for (const std::int32_t units : v) day.push_back(dose(units));
        const double fall = std::log(static_cast<double>(total(u)) / total(v));
        const double off = fall - std::log(1 / (1 - query_.target.value()));
        return off * off +
               query_.burden_weight * (pieces_.day_burden(day) + query_.dose_time_weight * changes(u, v)) +
               end_of_dose_time(u, v);
    }
    // The end of a dose time weighs what it takes from the trough, for the share of the dose taken then.
    double end_of_dose_time(const Amounts& u, const Amounts& v) const {
        for (std::size_t i = 0; i < u.size(); ++i)
            if (u[i] > 0 && v[i] == 0 && query_.ends_freely != i)
                return query_.end_weight * std::max(query_.end_least, trough(u) - trough(v)) * total(v) /
                       query_.before;
        return 0;
    }
    // Trough over average on the last of many days, dose after dose: no formula of the steady state.
    double trough(const Amounts& amounts) const {
        if (const auto known = troughs_.find(amounts); known != troughs_.end()) return known->second;
        std::vector<std::pair<double, std::int32_t>> doses;
        for (std::size_t i = 0; i < amounts.size(); ++i)
            if (amounts[i] > 0) doses.emplace_back(query_.hours[i], amounts[i]);
        std::sort(doses.begin(), doses.end());
        const double rate = std::log(2) / query_.half_life_h;
        double level = 0, at = 0, lowest = 0, area = 0;
        constexpr int kDays = 400;
        for (int day = 0; day < kDays; ++day) {
            lowest = std::numeric_limits<double>::infinity();
            area = 0;
            for (const auto& [hour, amount] : doses) {
                const double now = 24.0 * day + hour, left = level * std::exp(-rate * (now - at));
                area += (level - left) / rate;
                lowest = std::min(lowest, left);
                level = left + amount;
                at = now;
            }
        }
        return troughs_[amounts] =
                   lowest /
                   (area / 24);  // the area from the last dose of the day before to that of the last day
    }
    // Of the first steps from which the end is reached: the smallest cut that is large enough, else the
    // largest.
    std::int32_t first_total(const std::map<Amounts, double>& after) const {
        const Share least = std::min(*query_.test_least, query_.target);
        std::int32_t chosen = 0, lowest = total(query_.from);
        for (const auto& [amounts, cost] : after) {
            const std::int32_t to = total(amounts);
            lowest = std::min(lowest, to);
            const bool enough = Share::of(total(query_.from) - to, total(query_.from)) >= least;
            if (enough) chosen = std::max(chosen, to);
        }
        return chosen > 0 ? chosen : lowest;
    }
    // Every sequence to the end is walked: nothing is remembered on the way.
    std::optional<double> best(const Amounts& from, bool first = false) const {
        ++tried_;
        if (total(from) == *end_) return 0;
        std::map<Amounts, double> after;
        for (const Amounts& each : next(from))
            if (const auto rest = best(each)) after[each] = *rest;
        std::optional<double> least;
        for (const auto& [amounts, rest] : after) {
            if (first && query_.test_least && total(amounts) != first_total(after)) continue;
            const double cost = step(from, amounts) + rest;
            if (!least || cost < *least) least = cost;
        }
        return least;
    }

    const PieceTable& pieces_;
    const planning::PathQuery& query_;
    std::optional<std::int32_t> end_;
    mutable std::map<Amounts, std::int32_t> least_;
    mutable std::map<Amounts, double> troughs_;
    mutable long tried_ = 0;
};

}  // namespace evenfall::reference
