// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/compare.h"

#include <algorithm>
#include <map>

#include "kinetics/levels.h"
#include "kinetics/steady.h"

namespace evenfall {

namespace {

using std::chrono::days;

bool flagged(const Step& step, const char* rule) {
    return std::ranges::any_of(step.flags, [&](const Flag& flag) { return flag.rule == rule; });
}

bool is_cut(const Piece& piece) {
    return piece.cut == Cut::half || piece.cut == Cut::quarter;
}

/// Pieces of one product over the whole plan, in quarters.
struct Taken {
    std::int64_t quarters_whole = 0, quarters_cut = 0, nl = 0;

    std::int64_t units() const { return (quarters_whole + quarters_cut + 3) / 4; }
    std::int64_t units_cut() const { return (quarters_cut + 3) / 4; }
};

void add(Taken& taken, const Piece& piece, int on_days) {
    constexpr std::int64_t kQuarters = 4;
    const std::int64_t pieces = std::int64_t{piece.count} * on_days;
    if (piece.cut == Cut::ml) taken.nl += piece.volume.nl() * on_days;
    if (piece.cut == Cut::whole) taken.quarters_whole += kQuarters * pieces;
    if (piece.cut == Cut::half) taken.quarters_cut += 2 * pieces;
    if (piece.cut == Cut::quarter) taken.quarters_cut += pieces;
}

void count_pieces(const Plan& plan, const Prices& prices, VariantFigures& figures) {
    std::map<Product, Taken> taken;
    for (const Step& step : plan.steps) {
        bool cuts = false;
        for (const PlannedDose& dose : step.doses) {
            if (dose.drug != plan.request.drug) continue;
            for (const Piece& piece : dose.pieces) {
                add(taken[piece.product], piece, step.days.value_or(0));
                cuts = cuts || is_cut(piece);
            }
        }
        if (cuts) figures.days_with_cutting += step.days.value_or(0);
    }
    std::int64_t nl = 0;
    Price cost;
    bool known = true;
    for (const auto& [product, each] : taken) {
        figures.products.push_back(product);
        figures.units += static_cast<int>(each.units());
        figures.units_cut += static_cast<int>(each.units_cut());
        nl += each.nl;
        const auto price = find_price(prices, product);
        known = known && price.has_value();
        if (!known) continue;
        constexpr std::int64_t kMillilitre = 1'000'000;
        const std::int64_t ml = (each.nl + kMillilitre - 1) / kMillilitre;
        cost.millionths += price->millionths * (is_liquid(product.form) ? ml : each.units());
    }
    figures.liquid = Volume::nanolitres(nl);
    if (known && !taken.empty()) figures.cost = cost;
}

void count_steps(const Plan& plan, VariantFigures& figures) {
    figures.steps = static_cast<int>(plan.steps.size());
    figures.last = daily_amount(plan.start, plan.request.drug);
    for (const Step& step : plan.steps) {
        figures.over_cap += flagged(step, "cut-over-cap");
        figures.dose_times_dropped += flagged(step, "dose-time-dropped");
        figures.ends_off = step.daily.is_zero();
        if (step.daily.is_zero()) continue;
        figures.largest_cut = std::max(figures.largest_cut, step.percent_of_last);
        figures.last = step.daily;
    }
    if (plan.steps.empty()) return;
    figures.ends = plan.steps.back().starts;
    figures.days = static_cast<int>((plan.steps.back().starts - plan.steps.front().starts).count());
}

std::vector<kinetics::DailyDose> daily_doses(const Step& step, const std::string& drug) {
    std::vector<kinetics::DailyDose> doses;
    for (const PlannedDose& dose : step.doses)
        if (dose.drug == drug) doses.push_back({dose.at.minutes / 60.0, dose.amount.mg()});
    return doses;
}

/// The average of each day of the plan before OFF, after a week of the regimen before.
std::vector<double> day_averages(const Plan& plan, const kinetics::Model& model) {
    using namespace kinetics;
    constexpr int kBefore = 7;
    const std::string& drug = plan.request.drug;
    std::vector<TimedDose> doses = repeated(kinetics::daily_doses(plan.start, drug), kBefore);
    int at = kBefore;
    for (const Step& step : plan.steps)
        if (step.days) {
            for (const TimedDose& dose : repeated(daily_doses(step, drug), *step.days, at * 24.0))
                doses.push_back(dose);
            at += *step.days;
        }
    const Start start = steady_start(model, kinetics::daily_doses(plan.start, drug));
    return relative_averages(model, start, doses, {24, 24, static_cast<std::size_t>(at)});
}

std::optional<HardestWeek> hardest_week(const Plan& plan, const Formulary& formulary) {
    const Drug* drug = formulary.find(plan.request.drug);
    if (!drug || plan.steps.empty()) return std::nullopt;
    const auto model = kinetics::Model::make(drug->kinetics, plan.request.drug);
    if (!model) return std::nullopt;
    const std::vector<double> averages = day_averages(plan, *model);
    constexpr std::size_t kWeek = 7;
    std::vector<double> sums{0};
    for (const double each : averages) sums.push_back(sums.back() + each);
    HardestWeek hardest{plan.steps.front().starts, 0};
    for (std::size_t day = kWeek; day + kWeek <= averages.size(); ++day) {
        const double before = sums[day] - sums[day - kWeek], week = sums[day + kWeek] - sums[day];
        const double percent = before > 0 ? 100 * (before - week) / before : 0;
        constexpr double kNothing = 1e-9;  // rounding of the model's own arithmetic
        if (percent <= hardest.percent + kNothing) continue;
        hardest = {plan.steps.front().starts + days(static_cast<int>(day - kWeek)), percent};
    }
    return hardest;
}

}  // namespace

VariantFigures figures_of(const Plan& plan, const Formulary& formulary, const Prices& prices) {
    VariantFigures figures;
    count_steps(plan, figures);
    count_pieces(plan, prices, figures);
    figures.hardest_week = hardest_week(plan, formulary);
    return figures;
}

std::vector<VariantFigures> compare_plans(std::span<const Plan> plans, const Formulary& formulary,
                                          const Prices& prices) {
    std::vector<VariantFigures> all;
    for (const Plan& plan : plans) all.push_back(figures_of(plan, formulary, prices));
    return all;
}

}  // namespace evenfall
