// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/supply.h"

#include <algorithm>
#include <map>

#include "planning/stock.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using std::chrono::days;

constexpr int kMostDays = 365;
constexpr int kLongestHold = 3 * 366;
constexpr std::int64_t kMillilitre = 1'000'000;

/// The doses in force on a day, or null before the first.
const std::vector<PlannedDose>* doses_on(const std::vector<DatedDoses>& doses, Day day) {
    const std::vector<PlannedDose>* found = nullptr;
    for (const DatedDoses& each : doses)
        if (each.from <= day) found = &each.doses;
    return found;
}

/// The least that has to be dispensed of each product.
using Needs = std::map<Product, std::pair<std::int64_t, std::int64_t>>;  // units, nanolitres

void raise(Needs& needs, const Stock& stock) {
    for (const Product& product : stock.products()) {
        auto& [units, nl] = needs[product];
        units = std::max(units, stock.missing_units(product));
        nl = std::max(nl, stock.missing_volume(product).nl());
    }
}

class Counter {
  public:
    explicit Counter(const SupplyInput& input) : input_(input), home_(input.on_hand) {}

    Supply count() {
        Supply supply;
        supply.runs_out = runs_out();
        for (Day from = input_.from; from < input_.to; from += days(input_.days_per_fill))
            supply.fills.push_back(fill(from, std::min(from + days(input_.days_per_fill), input_.to)));
        supply.surplus = surplus();
        return supply;
    }

  private:
    void take(Stock& stock, Day day) const {
        if (const auto* doses = doses_on(input_.doses, day)) stock.take(*doses);
    }

    std::optional<Day> runs_out() const {
        Stock stock = home_;
        for (Day day = input_.from; day < input_.to; day += days(1)) {
            take(stock, day);
            if (stock.lacks_anything()) return day;
        }
        return std::nullopt;
    }

    /// The plan until `held`, and its dose of that day from then on.
    Stock with_hold(const Stock& home, Day from, Day held, Day until) const {
        Stock stock = home;
        for (Day day = from; day < until; day += days(1)) take(stock, std::min(day, held));
        return stock;
    }

    /// What the fill has to bring so that the plan, and a hold of any of its days or of the day before, reach
    /// through the reserve: where a step falls on the day of the fill, the person may stay on the dose of the
    /// day before.
    Needs needs_of(Day from, Day to) const {
        const Day until = to + days(input_.reserve_days);
        Needs needs;
        raise(needs, with_hold(home_, from, until, until));
        const std::vector<PlannedDose>* before = nullptr;
        for (Day held = from - days(1); held < to; held += days(1)) {
            const auto* doses = doses_on(input_.doses, held);
            if (doses == before) continue;  // the same dose as the day before: the same hold, begun earlier
            before = doses;
            raise(needs, with_hold(home_, from, held, until));
        }
        return needs;
    }

    Fill fill(Day from, Day to) {
        Fill fill{from, to, {}, {}, {}};
        fill.too_old = throw_away(from);
        for (const auto& [product, need] : needs_of(from, to)) {
            const auto ml =
                (need.second + kMillilitre - 1) / kMillilitre;  // a pharmacy measures whole millilitres
            if (need.first == 0 && ml == 0) continue;
            fill.items.push_back({product, static_cast<int>(need.first), Volume::millilitres(ml)});
            home_.add(product, need.first, Volume::millilitres(ml));
            if (ml > 0) opened_[product] = from;
        }
        fill.cost = cost_of(fill.items);
        flag(fill);
        fill.covers_hold_until = hold_lasts(from);
        for (Day day = from; day < to; day += days(1)) take(home_, day);
        fill.left_over = home_.on_hand();
        return fill;
    }

    /// What of an opened liquid would be older than its usable life before the plan has taken it.
    std::vector<OnHand> throw_away(Day from) {
        std::vector<OnHand> old;
        for (const OnHand& item : home_.on_hand()) {
            const auto opened = opened_.find(item.product);
            if (input_.limits.liquid_days == 0 || opened == opened_.end()) continue;
            std::int64_t taken = 0;
            for (Day day = from; day < opened->second + days(input_.limits.liquid_days); day += days(1))
                taken += poured_on(day, item.product);
            const std::int64_t left = item.volume.nl() - std::min(taken, item.volume.nl());
            if (left == 0) continue;
            old.push_back({item.product, 0, Volume::nanolitres(left)});
            home_.throw_away(item.product, Volume::nanolitres(left));
        }
        return old;
    }

    std::int64_t poured_on(Day day, const Product& product) const {
        std::int64_t nl = 0;
        if (const auto* doses = doses_on(input_.doses, day))
            for (const PlannedDose& dose : *doses)
                for (const Piece& piece : dose.pieces)
                    if (piece.product == product) nl += piece.volume.nl();
        return nl;
    }

    std::optional<Price> cost_of(const std::vector<SupplyItem>& items) const {
        Price cost;
        for (const SupplyItem& item : items) {
            const auto price = find_price(input_.prices, item.product);
            if (!price) return std::nullopt;
            const std::int64_t ml = (item.volume.nl() + kMillilitre - 1) / kMillilitre;
            cost.millionths += price->millionths * (item.units + ml);
        }
        return cost;
    }

    /// The days of the fill's dose that its items alone would last.
    int days_dispensed(const Fill& fill) const {
        Stock stock;
        std::vector<PlannedDose> doses;
        for (const SupplyItem& item : fill.items) stock.add(item.product, item.units, item.volume);
        if (const auto* now = doses_on(input_.doses, fill.from))
            for (const PlannedDose& dose : *now) {
                const bool dispensed = std::ranges::any_of(
                    fill.items, [&](const SupplyItem& item) { return item.product.drug == dose.drug; });
                if (dispensed && !dose.pieces.empty()) doses.push_back(dose);
            }
        int lasts = 0;
        while (!doses.empty() && lasts < kLongestHold) {
            stock.take(doses);
            if (stock.lacks_anything()) break;
            ++lasts;
        }
        return lasts;
    }

    void flag(Fill& fill) {
        const SupplyLimits& limits = input_.limits;
        const int lasts = days_dispensed(fill);
        if (limits.most_days > 0 && lasts > limits.most_days)
            fill.flags.push_back({"fill-days", {{"days", std::to_string(lasts)}}, {}});
        flag_prescription(fill);
        const int needed = static_cast<int>((fill.to - fill.from).count()) + input_.reserve_days;
        for (const SupplyItem& item : fill.items)
            if (limits.liquid_days > 0 && needed > limits.liquid_days && item.volume > Volume())
                fill.flags.push_back(
                    {"liquid-life",
                     {{"product", product_name(item.product)}, {"days", std::to_string(needed)}},
                     {}});
    }

    /// A fill that the prescription of the fills before it no longer covers.
    void flag_prescription(Fill& fill) {
        const SupplyLimits& limits = input_.limits;
        if (fill.items.empty() || limits.refills == 0) return;
        const auto written = calendar(prescribed_.value_or(fill.from));
        auto until = written + std::chrono::months(limits.months);
        if (!until.ok()) until = until.year() / until.month() / std::chrono::last;
        const bool too_many = filled_ > limits.refills;
        const bool too_late = limits.months > 0 && fill.from > Day(until);
        if (prescribed_ && (too_many || too_late))
            fill.flags.push_back({"refills", {{"day", print_day(fill.from)}}, {}});
        if (!prescribed_ || too_many || too_late) {
            prescribed_ = fill.from;
            filled_ = 0;
        }
        ++filled_;
    }

    std::vector<OnHand> surplus() const {
        std::vector<OnHand> items = home_.on_hand();
        std::erase_if(items, [&](const OnHand& item) {
            const auto takes = [&](const std::vector<PlannedDose>& doses) {
                for (const PlannedDose& dose : doses)
                    for (const Piece& piece : dose.pieces)
                        if (piece.product == item.product) return true;
                return false;
            };
            const auto* now = doses_on(input_.doses, input_.to);
            if (now && takes(*now)) return true;
            return std::ranges::any_of(input_.doses, [&](const DatedDoses& each) {
                return each.from > input_.to && takes(each.doses);
            });
        });
        return items;
    }

    /// The first day that could not be made if the dose of the fill's day, or of the day before, were held.
    Day hold_lasts(Day from) const {
        return std::min(dose_lasts(from, from), dose_lasts(from, from - days(1)));
    }

    Day dose_lasts(Day from, Day held) const {
        Stock stock = home_;
        const auto* doses = doses_on(input_.doses, held);
        for (int ahead = 0; doses && ahead < kLongestHold; ++ahead) {
            stock.take(*doses);
            if (stock.lacks_anything()) return from + days(ahead);
        }
        return from + days(kLongestHold);
    }

    const SupplyInput& input_;
    Stock home_;
    std::map<Product, Day> opened_;  ///< liquids: the day of the last fill
    std::optional<Day> prescribed_;  ///< the first fill of the prescription in use
    int filled_ = 0;                 ///< fills on it so far
};

Fault range_fault(std::string id, int value) {
    return {std::move(id), "supply", {{"days", std::to_string(value)}}};
}

}  // namespace

SupplyLimits SupplyLimits::from(const Rules& rules) {
    return {rules.whole("fill-days", "days"), rules.whole("refills", "refills"),
            rules.whole("refills", "months"), rules.whole("liquid-life", "days")};
}

Result<Supply> supply_for(const SupplyInput& input) {
    Faults faults;
    if (input.to <= input.from)
        faults.push_back(
            {"supply-range", "supply", {{"from", print_day(input.from)}, {"to", print_day(input.to)}}});
    if (input.days_per_fill < 1 || input.days_per_fill > kMostDays)
        faults.push_back(range_fault("supply-days-per-fill", input.days_per_fill));
    if (input.reserve_days < 0 || input.reserve_days > kMostDays)
        faults.push_back(range_fault("supply-reserve", input.reserve_days));
    if (!doses_on(input.doses, input.from))
        faults.push_back({"supply-no-doses", "supply", {{"from", print_day(input.from)}}});
    if (!faults.empty()) return faults;
    return Counter(input).count();
}

}  // namespace evenfall
