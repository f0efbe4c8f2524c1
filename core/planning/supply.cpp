// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/supply.h"

#include <algorithm>
#include <map>

#include "planning/stock.h"

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
        for (const auto& [product, need] : needs_of(from, to)) {
            const auto ml =
                (need.second + kMillilitre - 1) / kMillilitre;  // a pharmacy measures whole millilitres
            if (need.first == 0 && ml == 0) continue;
            fill.items.push_back({product, static_cast<int>(need.first), Volume::millilitres(ml)});
            home_.add(product, need.first, Volume::millilitres(ml));
        }
        fill.covers_hold_until = hold_lasts(from);
        for (Day day = from; day < to; day += days(1)) take(home_, day);
        fill.left_over = home_.on_hand();
        return fill;
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
};

Fault range_fault(std::string id, int value) {
    return {std::move(id), "supply", {{"days", std::to_string(value)}}};
}

}  // namespace

std::vector<DatedDoses> doses_of(const Plan& plan, Day first, const PieceWeights& weights) {
    const Day from = first - days(1);  // the dose of the day before counts too: it may be held
    std::vector<DatedDoses> dated{{from, {}}};
    std::vector<Dose> amounts;
    Dose most;
    for (const DoseTime& dose : plan.start.doses) {
        if (dose.drug != plan.request.drug) continue;
        amounts.push_back(dose.amount);
        most = std::max(most, dose.amount);
        dated.front().doses.push_back({dose.at, dose.drug, dose.amount, {}});
    }
    const PieceTable table(plan.products, plan.request.drug, weights, most);
    if (const auto pieces = table.day_pieces(amounts))
        for (std::size_t i = 0; i < pieces->size(); ++i) dated.front().doses[i].pieces = (*pieces)[i];
    for (const Step& step : plan.steps) {
        if (step.starts <= from) dated.clear();
        dated.push_back({std::max(step.starts, from), step.doses});
    }
    return dated;
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
