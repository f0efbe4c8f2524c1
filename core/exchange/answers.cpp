// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/answers.h"

#include "exchange/csv.h"
#include "planning/sequence.h"
#include "units/dose_text.h"

namespace evenfall::answers {

Fault needs(std::string part) {
    return {"case-needs", part, {{"part", part}}};
}

std::string table_of(const Answered& columns, const Answered& rows) {
    const auto line = [](const Answered& cells) {
        std::string text;
        for (const auto& cell : cells) {
            if (&cell != &cells.front()) text += ",";
            text += cell.is_string() ? csv_cell(cell.get_ref<const std::string&>())
                    : cell.is_null() ? ""
                                     : cell.dump();
        }
        return text + "\r\n";
    };
    std::string table = line(columns);
    for (const auto& row : rows) table += line(row);
    return table;
}

Answered amount(Dose dose) {
    return print_mg_digits(dose);
}

Answered percent(const Share& share) {
    return print_percent(share, true);
}

Answered range(const DiazepamRange& diazepam) {
    return {{"least", amount(diazepam.least)},
            {"usual", amount(diazepam.usual)},
            {"most", amount(diazepam.most)}};
}

Answered day(Day day) {
    return print_day(day);
}

Answered flag(const Flag& flag, const Rules& rules) {
    return {{"rule", flag.rule}, {"text", rules.sentence(flag)}, {"source", rules.source(flag.rule)}};
}

Answered flags(const std::vector<Flag>& all, const Rules& rules) {
    Answered list = Answered::array();
    for (const Flag& each : all) list.push_back(flag(each, rules));
    return list;
}

Answered piece(const Piece& piece) {
    Answered shaped = {{"product", product_name(piece.product)}, {"cut", word(piece.cut)}};
    if (piece.cut == Cut::ml)
        shaped["count"] = print_ml_digits(piece.volume);
    else
        shaped["count"] = piece.count;
    return shaped;
}

Answered doses(const std::vector<PlannedDose>& doses, bool with_drug) {
    Answered list = Answered::array();
    for (const PlannedDose& dose : doses) {
        Answered shaped = {{"at", print_clock(dose.at)}};
        if (with_drug) shaped["drug"] = dose.drug;
        shaped["amount_mg"] = amount(dose.amount);
        Answered pieces = Answered::array();
        for (const Piece& each : dose.pieces) pieces.push_back(piece(each));
        shaped["pieces"] = std::move(pieces);
        list.push_back(std::move(shaped));
    }
    return list;
}

void add_overrides(Answered& answer, const Basis& basis) {
    const auto overridden = overridden_by(basis.given);
    if (!overridden.empty()) answer["overridden"] = overridden;
}

Result<std::vector<Plan>> plans_of(const Basis& basis) {
    const Case& given = basis.given;
    Faults faults;
    if (!given.plan) faults.push_back(needs("plan"));
    if (!given.regimen) faults.push_back(needs("regimen"));
    if (given.products.empty()) faults.push_back(needs("products"));
    if (!faults.empty()) return faults;
    std::vector<PlanRequest> requests{*given.plan};
    const auto agents = agents_of(*given.regimen);
    if (requests.front().drug.empty() && agents.size() == 1) requests.front().drug = agents.front();
    requests.insert(requests.end(), given.plans_after.begin(), given.plans_after.end());
    TaperInput input{*given.regimen, given.products, {}};
    if (given.as_of_given) input.today = day_of(given.as_of);
    return plan_sequence(requests, input, basis.formulary, basis.rules);
}

Result<Plan> plan_of(const Basis& basis) {
    auto plans = plans_of(basis);
    if (!plans) return plans.faults();
    return std::move(plans->front());
}

}  // namespace evenfall::answers

namespace evenfall {

Result<Answered> compute(Kind kind, const Basis& basis) {
    switch (kind) {
        case Kind::equivalence:
            return answers::equivalence(basis);
        case Kind::levels:
            return answers::levels(basis);
        case Kind::stabilization:
            return answers::stabilization(basis);
        case Kind::taper:
            return answers::taper(basis);
        case Kind::crossover:
            return answers::crossover(basis);
        case Kind::review:
            return answers::review(basis);
        case Kind::supply:
            return answers::supply(basis);
        case Kind::response:
            return answers::response(basis);
        case Kind::scales:
            return answers::scales(basis);
    }
    return Fault{"case-no-table", word(kind), {}};
}

namespace {

/// The cells of an entry: an object's members side by side ("diazepam_mg.usual"), a list as its JSON text.
void flatten(const Answered& entry, const std::string& prefix, Answered& columns, Answered& row) {
    for (const auto& [name, value] : entry.items()) {
        if (value.is_object()) {
            flatten(value, prefix + name + ".", columns, row);
            continue;
        }
        columns.push_back(prefix + name);
        row.push_back(value.is_array() ? Answered(value.dump()) : value);
    }
}

/// The rows of an answer's list as a table, with every column that any row has.
std::string flat_table(const Answered& list) {
    Answered columns = Answered::array();
    Answered rows = Answered::array();
    for (const auto& entry : list) {
        Answered names = Answered::array();
        Answered row = Answered::array();
        flatten(entry, "", names, row);
        if (names.size() > columns.size()) columns = std::move(names);
        rows.push_back(std::move(row));
    }
    return answers::table_of(columns, rows);
}

}  // namespace

Result<std::string> compute_csv(Kind kind, const Basis& basis) {
    auto answer = compute(kind, basis);
    if (!answer) return answer.faults();
    if (kind == Kind::levels) return answers::table_of((*answer)["columns"], (*answer)["rows"]);
    for (const char* list : {"steps", "agents", "fills", "scales"})
        if (answer->contains(list)) return flat_table((*answer)[list]);
    return Fault{"case-no-table", word(kind), {}};
}

}  // namespace evenfall
