// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "exchange/read_parts.h"
#include "units/dose_text.h"

namespace evenfall::case_file {
namespace {

constexpr int kMostDays = 365;
constexpr double kMostMinutes = 7 * 24 * 60;
constexpr double kMostPoints = 2'000'000;

/// A percentage as a decimal string or a JSON number, above 0 and below 100.
void read_percent(StrictObject& object, const Reader& reader, const char* key, Share& target) {
    const Json* value = object.find(key);
    if (!value) return;
    if (!value->is_string() && !value->is_number())
        return reader.fault(object.place(key), "json-not-a-number");
    const std::string text = value->is_string() ? value->get<std::string>() : value->dump();
    auto percent = parse_percent(text, object.place(key));
    if (!percent) {
        reader.faults.insert(reader.faults.end(), percent.faults().begin(), percent.faults().end());
        return;
    }
    if (*percent <= Share() || *percent >= Share::percent(100))
        return reader.fault(object.place(key), "case-percent-range", {{"text", text.substr(0, 40)}});
    target = *percent;
}

/// `shape` is "even", "larger at night", or the dose time that is reduced first.
void read_shape(StrictObject& object, const Reader& reader, PlanRequest& plan) {
    std::string shape;
    if (!object.text("shape", shape, Need::may)) return;
    if (shape == "even") {
        plan.shape = Shape::even;
    } else if (shape == "larger at night") {
        plan.shape = Shape::larger_at_night;
    } else if (auto at = parse_clock(shape, object.place("shape"))) {
        plan.shape = Shape::dose_time_first;
        plan.first_dose_time = *at;
    } else {
        reader.fault(object.place("shape"), "json-word-unknown",
                     {{"text", shape.substr(0, 40)},
                      {"expected", "even, larger at night, or a dose time such as 14:00"}});
    }
}

/// `end` is "off" or a daily amount.
void read_end(StrictObject& object, const Reader& reader, PlanRequest& plan) {
    const Json* end = object.find("end");
    if (!end || (end->is_string() && end->get_ref<const std::string&>() == "off")) return;
    Dose amount;
    if (reader.dose(object, "end", plan.drug, amount)) plan.end_amount = amount;
}

void read_day_order(const Reader& reader, const std::string& place, Day from, Day to) {
    if (to <= from) reader.fault(place, "days-out-of-order");
}

/// "lorazepam 0.5 mg tablet" names one of the case's products.
void read_on_hand(const Reader& reader, const Json& value, const std::string& place, SupplyAsked& supply) {
    StrictObject object(value, place, reader.faults);
    std::string name;
    std::string count;
    const bool named = object.text("product", name);
    const Json* raw = object.find("count", Need::must);
    if (!named || !raw) return;
    const auto product = std::ranges::find_if(reader.given.products,
                                              [&](const Product& p) { return product_name(p) == name; });
    if (product == reader.given.products.end())
        return reader.fault(object.place("product"), "case-product-unknown", {{"text", name.substr(0, 80)}});
    count = raw->is_string() ? raw->get<std::string>() : raw->dump();
    auto millionths =
        parse_ml(count, object.place("count"));  // plain decimals; a count of units, or millilitres
    if (!millionths) {
        reader.faults.insert(reader.faults.end(), millionths.faults().begin(), millionths.faults().end());
        return;
    }
    OnHand on_hand{*product, 0, {}};
    if (is_liquid(product->form)) {
        on_hand.volume = *millionths;
    } else if (millionths->nl() % 250'000 != 0) {
        return reader.fault(object.place("count"), "case-count-quarters", {{"text", count.substr(0, 40)}});
    } else {
        on_hand.quarters = static_cast<int>(millionths->nl() / 250'000);
    }
    supply.on_hand.push_back(std::move(on_hand));
}

}  // namespace

namespace {

PlanRequest plan_request(const Reader& reader, StrictObject& object) {
    PlanRequest plan;
    plan.start = day_of(reader.given.as_of);
    reader.drug(object, "drug", plan.drug, Need::may);
    object.parsed("start", plan.start, parse_day, Need::may);
    read_percent(object, reader, "target_percent", plan.target);
    read_percent(object, reader, "cap_percent", plan.cap);
    object.whole("days_per_step", plan.days_per_step, 1, kMostDays, Need::may);
    object.word("pace", plan.pace, Need::may);
    object.whole("commit_steps", plan.commit_steps, 0, 1000, Need::may);
    read_shape(object, reader, plan);
    read_end(object, reader, plan);
    if (object.find("last_dose_mg")) {
        Dose last;
        if (reader.dose(object, "last_dose_mg", plan.drug, last)) plan.last_dose = last;
    }
    object.yes_or_no("test_reduction", plan.test_reduction, Need::may);
    return plan;
}

}  // namespace

void read_plan(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    reader.given.plan = plan_request(reader, object);
    object.list(
        "then",
        [&](const Json& next, const std::string& at) {
            StrictObject after(next, at, reader.faults);
            reader.given.plans_after.push_back(plan_request(reader, after));
        },
        Need::may);
}

void read_crossover(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    CrossoverAsked asked;
    asked.start = day_of(reader.given.as_of);
    reader.drug(object, "from", asked.from);
    reader.drug(object, "to", asked.to);
    object.parsed("start", asked.start, parse_day, Need::may);
    object.whole("days_per_stage", asked.days_per_stage, 1, kMostDays, Need::may);
    std::vector<std::string> order;
    object.texts("order", order, Need::may);
    for (std::size_t i = 0; i < order.size(); ++i) {
        ClockTime at;
        if (take(parse_clock(order[i], object.place("order") + "[" + std::to_string(i) + "]"), at,
                 reader.faults))
            asked.order.push_back(at);
    }
    if (!asked.from.empty() && asked.from == asked.to)
        reader.fault(object.place("to"), "case-crossover-same");
    reader.given.crossover = std::move(asked);
}

void read_supply(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    SupplyAsked asked;
    const bool days = object.parsed("from", asked.from, parse_day) & object.parsed("to", asked.to, parse_day);
    if (days) read_day_order(reader, object.place("to"), asked.from, asked.to);
    object.whole("days_per_fill", asked.days_per_fill, 1, kMostDays, Need::may);
    object.whole("reserve_days", asked.reserve_days, 0, kMostDays, Need::may);
    object.list(
        "on_hand", [&](const Json& item, const std::string& at) { read_on_hand(reader, item, at, asked); },
        Need::may);
    reader.given.supply = std::move(asked);
}

void read_equivalence(const Reader& reader, const std::string& drug, const Json& value,
                      const std::string& place) {
    StrictObject object(value, place, reader.faults);
    EquivalenceGiven given;
    const auto read = [&](const char* key, Dose& target) {
        if (!object.amount_mg(key, target)) return false;
        if (target.is_zero()) reader.fault(object.place(key), "amount-zero");
        return !target.is_zero();
    };
    const bool usual = read("usual_mg", given.usual);
    Dose end;
    if (object.find("least_diazepam_mg") && read("least_diazepam_mg", end)) given.least_diazepam = end;
    if (object.find("most_diazepam_mg") && read("most_diazepam_mg", end)) given.most_diazepam = end;
    if (!reader.formulary.find(drug))
        return reader.fault(place, "drug-unknown", {{"text", drug.substr(0, 40)}});
    if (usual && ((given.least_diazepam && *given.least_diazepam < given.usual) ||
                  (given.most_diazepam && *given.most_diazepam > given.usual)))
        return reader.fault(place, "case-equivalence-order");
    reader.given.equivalences[drug] = given;
}

void read_levels(const Reader& reader, const Json& value, const std::string& place) {
    StrictObject object(value, place, reader.faults);
    LevelsAsked asked;
    const Json* doses = object.find("doses");
    if (doses && doses->is_array()) {
        asked.doses = LevelDoses::listed;
        object.list("doses", [&](const Json& dose, const std::string& at) {
            asked.listed.push_back(read_intake(reader, dose, at, true));
        });
    } else {
        object.word("doses", asked.doses, Need::may);
    }
    object.word("start", asked.start, Need::may);
    const bool times = reader.time(object, "from", asked.from) & reader.time(object, "to", asked.to);
    object.number("every_minutes", asked.every_minutes, {0.01, kMostMinutes, false}, Need::may);
    object.word("as", asked.as, Need::may);
    object.whole("spread", asked.spread, 0, 10'000, Need::may);
    if (times && asked.to < asked.from) reader.fault(object.place("to"), "days-out-of-order");
    const double minutes = static_cast<double>((asked.to - asked.from).count()) / 60;
    if (times && minutes / asked.every_minutes > kMostPoints)
        reader.fault(object.place("every_minutes"), "case-too-many-points", {{"most", "2000000"}});
    reader.given.levels = std::move(asked);
}

}  // namespace evenfall::case_file
