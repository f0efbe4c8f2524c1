// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/floor.h"

#include <algorithm>

#include "planning/percent_text.h"
#include "planning/taper_check.h"
#include "units/dose_text.h"

namespace evenfall {

namespace {

enum class Route { swallowed, under_the_tongue, other };

Route route_of(const Product& product) {
    if (product.form == Form::sublingual_tablet) return Route::under_the_tongue;
    if (product.form == Form::oral_spray || is_modified_release(product.form)) return Route::other;
    return Route::swallowed;
}

}  // namespace

bool may_move_floor(const Product& product, const std::string& drug, const std::vector<Product>& held) {
    const Route route = route_of(product);
    const bool used = std::ranges::any_of(
        held, [&](const Product& each) { return each.drug == drug && route_of(each) == route; });
    const bool usable = route == Route::swallowed || (route != Route::other && used);
    return usable && product.drug == drug && std::ranges::find(held, product) == held.end();
}

std::vector<Product> floor_candidates(const Drug& drug, const std::vector<Product>& held) {
    std::vector<Product> candidates;
    for (const ListedProduct& listed : drug.products)
        if (listed.for_steps && may_move_floor(listed.product, drug.name, held))
            candidates.push_back(listed.product);
    return candidates;
}

}  // namespace evenfall

namespace evenfall::planning {

namespace {

// The floor is the first regimen from which no later cut keeps the cap.
std::optional<std::size_t> floor_step(const std::vector<PathStep>& steps) {
    std::size_t floor = steps.size();
    while (floor > 0 && steps[floor - 1].over_cap) --floor;
    return floor < steps.size() ? std::optional(floor) : std::nullopt;
}

std::string candidate_name(const Product& product) {
    const bool whole = product.cuts == Cuts::whole || is_liquid(product.form);
    return product_name(product) + (whole ? "" : ", " + word(product.cuts));
}

Dose total_of(const std::vector<Dose>& doses) {
    Dose total;
    for (const Dose dose : doses) total += dose;
    return total;
}

// From the floor down with one more product: where the cap can be kept to.
std::optional<Dose> moved_floor(const PlanRequest& request, const TaperInput& input, const Product& added,
                                const std::vector<Dose>& at_floor, const Rules& rules,
                                const std::stop_token& stop) {
    std::vector<Product> products = input.products;
    products.push_back(added);
    const Ground ground = lay_ground(request, input, products, rules);
    if (!ground.shape || !check_products(request, input, ground.table).empty()) return std::nullopt;
    Amounts from;
    for (const Dose dose : at_floor)
        from.push_back(static_cast<std::int32_t>(dose.ng() / ground.table.unit().ng()));
    const PathQuery query = query_for(request, input, from, ground.table, rules);
    const auto path = find_path(*ground.shape, ground.table, query, stop);
    if (!path) return std::nullopt;
    const auto floor = floor_step(path->steps);
    if (floor == 0) return std::nullopt;
    return total_of(doses_in(path->steps[floor.value_or(path->steps.size()) - 1].amounts, ground.table));
}

struct Moved {
    Dose to;
    Product product;
};

}  // namespace

void find_floor(Plan& plan, const TaperInput& input, const Ground& ground, const PathQuery& query,
                const Path& path, const Rules& rules, const std::stop_token& stop) {
    const auto floor = floor_step(path.steps);
    if (!floor) return;
    const std::vector<Dose> at =
        doses_in(*floor > 0 ? path.steps[*floor - 1].amounts : query.from, ground.table);
    const Dose amount = total_of(at), after = total_of(doses_in(path.steps[*floor].amounts, ground.table));
    plan.floor.amount = amount;
    plan.floor.smallest_cut = amount - after;
    const auto [percent, cap] = percents_apart(Share::cut(amount, after), plan.request.cap);
    plan.floor.says.push_back({"floor",
                               {{"amount", print_dose(amount)},
                                {"cap", cap},
                                {"percent", percent},
                                {"cut", print_dose(amount - after)}},
                               {}});
    std::vector<Moved> moved;
    for (const Product& candidate : input.candidates) {
        if (!may_move_floor(candidate, plan.request.drug, input.products)) continue;
        const auto to = moved_floor(plan.request, input, candidate, at, rules, stop);
        if (to && *to < amount) moved.push_back({*to, candidate});
    }
    std::ranges::stable_sort(moved, {}, &Moved::to);
    const auto most = static_cast<std::size_t>(rules.whole("floor-would-move", "most"));
    for (std::size_t i = 0; i < std::min(most, moved.size()); ++i)
        plan.floor.says.push_back({"floor-would-move",
                                   {{"product", candidate_name(moved[i].product)},
                                    {"amount", print_dose(moved[i].to)},
                                    {"by", print_dose(amount - moved[i].to)}},
                                   {}});
}

}  // namespace evenfall::planning
