// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "planning/supply.h"

// What is taken on each day of a plan, of plans one after another, and of a crossover.

namespace evenfall {

namespace {

using std::chrono::days;

std::vector<PlannedDose> planned(const Regimen& regimen) {
    std::vector<PlannedDose> doses;
    for (const DoseTime& dose : regimen.doses) doses.push_back({dose.at, dose.drug, dose.amount, {}});
    return doses;
}

/// What is in force from the day before `from` on; earlier days are dropped.
void add(std::vector<DatedDoses>& dated, Day starts, std::vector<PlannedDose> doses, Day from) {
    if (starts <= from) dated.clear();
    dated.push_back({std::max(starts, from), std::move(doses)});
}

/// Doses that no product makes keep no pieces: nothing can be counted of them.
void finish(std::vector<DatedDoses>& dated, const std::vector<OnHand>& at_home,
            const std::vector<Product>& products, const PieceWeights& weights) {
    for (DatedDoses& each : dated) add_usual_pieces(each.doses, at_home, products, weights);
}

}  // namespace

void add_pieces(std::vector<PlannedDose>& doses, const std::vector<Product>& products,
                const PieceWeights& weights) {
    std::set<std::string> agents;
    for (const PlannedDose& dose : doses)
        if (dose.pieces.empty()) agents.insert(dose.drug);
    for (const std::string& agent : agents) {
        std::vector<Dose> amounts;
        for (const PlannedDose& dose : doses)
            if (dose.drug == agent) amounts.push_back(dose.amount);
        const Dose most = *std::max_element(amounts.begin(), amounts.end());
        const auto pieces = PieceTable(products, agent, weights, most).day_pieces(amounts);
        std::size_t i = 0;
        for (PlannedDose& dose : doses)
            if (pieces && dose.drug == agent) dose.pieces = (*pieces)[i++];
    }
}

void add_usual_pieces(std::vector<PlannedDose>& doses, const std::vector<OnHand>& at_home,
                      const std::vector<Product>& products, const PieceWeights& weights) {
    std::vector<Product> home, bought_again;
    for (const OnHand& each : at_home) {
        home.push_back(each.product);
        if (std::ranges::count(products, each.product) > 0) bought_again.push_back(each.product);
    }
    std::vector<Product> solid = products;
    std::erase_if(solid, [](const Product& product) { return is_liquid(product.form); });
    std::vector<Product> all = products;
    all.insert(all.end(), home.begin(), home.end());
    for (const std::vector<Product>& from : {bought_again, solid, products, all})
        add_pieces(doses, from, weights);
}

std::vector<DatedDoses> doses_of(const Plan& plan, Day first, const PieceWeights& weights,
                                 const std::vector<OnHand>& at_home) {
    return doses_of(std::vector{plan}, first, weights, at_home);
}

std::vector<DatedDoses> doses_of(const std::vector<Plan>& plans, Day first, const PieceWeights& weights,
                                 const std::vector<OnHand>& at_home) {
    const Day from = first - days(1);  // the dose of the day before counts too: it may be held
    std::vector<DatedDoses> dated;
    std::vector<Product> products;
    for (const Plan& plan : plans) {
        products.insert(products.end(), plan.products.begin(), plan.products.end());
        if (dated.empty()) dated.push_back({from, planned(plan.start)});
        for (const Step& step : plan.steps) add(dated, step.starts, step.doses, from);
    }
    finish(dated, at_home, products, weights);
    return dated;
}

std::vector<DatedDoses> doses_of(const CrossoverInput& input, const CrossoverPlan& crossover, Day first,
                                 const PieceWeights& weights) {
    const Day from = first - days(1);
    std::vector<DatedDoses> dated{{from, planned(input.regimen)}};
    for (const CrossoverStage& stage : crossover.stages) add(dated, stage.starts, stage.doses, from);
    finish(dated, {}, input.products, weights);
    return dated;
}

}  // namespace evenfall
