// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>
#include <set>

#include "papers/common.h"
#include "planning/by_hand.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

const ChangedDose* change_at(const std::vector<ChangedDose>& changes, ClockTime at, const std::string& drug) {
    const auto found = std::find_if(changes.begin(), changes.end(), [&](const ChangedDose& change) {
        return change.at == at && change.drug == drug;
    });
    return found == changes.end() ? nullptr : &*found;
}

std::string was_amount(const PaperDesk& desk, const ChangedDose& change) {
    // The words of the new dose name the bottle.
    const bool one_bottle = change.pieces_was.size() == 1 && change.pieces_now.size() == 1 &&
                            change.pieces_was.front().product == change.pieces_now.front().product;
    return one_bottle ? desk.say.brief_amount(change.pieces_was, change.was)
                      : desk.say.amount(change.pieces_was, change.was);
}

std::string was_text(const PaperDesk& desk, const ChangedDose& change) {
    if (change.was.is_zero()) return desk.say("schedule-changed-new");
    return desk.say("schedule-changed", {{"was", was_amount(desk, change)}});
}

DoseInCell said_dose(const PaperDesk& desk, const PlannedDose& dose) {
    const Args args = {{"agent", desk.say.agent(dose.drug)}, {"amount", print_dose(dose.amount)}};
    if (dose.pieces.empty())
        return {{}, {desk.say(dose.drug == desk.drug ? "paper-dose-plain" : "paper-dose-other", args)}, {}};
    DoseInCell said{dose.pieces, {}, {}};
    said.names_strengths = std::ranges::any_of(
        dose.pieces, [&](const Piece& piece) { return desk.say.tells_apart(piece.product); });
    if (several_agents(desk)) said.lines.push_back(desk.say.agent(dose.drug));
    for (std::string& line : desk.say.pieces(dose.pieces, dose.amount)) said.lines.push_back(std::move(line));
    return said;
}

/// What is marked beside a dose: what it was, or that the same dose is made from something else.
std::string marked(const PaperDesk& desk, const FirmStep& step, const PlannedDose& dose,
                   const std::vector<ChangedDose>& changes) {
    if (const ChangedDose* change = change_at(changes, dose.at, dose.drug)) return was_text(desk, *change);
    const Remade how = remade(step, dose);
    if (how == Remade::no) return {};
    const std::vector<Piece>& before = step.pieces_before.at({dose.at, dose.drug});
    const Args was = {{"was", desk.say.pieces_only(before)}};
    if (how != Remade::other_products) return desk.say("schedule-same-dose-other-pieces", was);
    const auto tablets = [](const std::vector<Piece>& pieces) {
        return std::ranges::all_of(pieces,
                                   [](const Piece& each) { return each.product.form == Form::tablet; });
    };
    return desk.say(tablets(before) && tablets(dose.pieces) ? "schedule-same-dose-other-tablets"
                                                            : "schedule-same-dose-other-products",
                    was);
}

/// Whether the day's amount falls by so many per cent: what a stage of a crossover changes is no cut.
bool is_cut(const PaperDesk& desk, const Step& step) {
    return step.number > crossover_stages(*desk.source.plan) && print_percent(step.percent_of_last) != "0";
}

std::string change_in_words(const PaperDesk& desk, const ChangedDose& change, Told told) {
    const Wording& say = desk.say;
    const Args args = {{"time", say.dose_time(change.at)},
                       {"agent", say.agent(change.drug)},
                       {"amount", told == Told::pieces ? say.made(change.pieces_now, change.now)
                                                       : say.amount(change.pieces_now, change.now)},
                       {"was", say.amount(change.pieces_was, change.was)}};
    const std::string which = several_agents(desk) ? "-agent" : "";
    if (change.now.is_zero()) return say("schedule-band-stops" + which, args);
    if (change.was.is_zero()) return say("schedule-band-new" + which, args);
    return say("schedule-band-change" + which, args);
}

Row step_row(const PaperDesk& desk, const FirmStep& step, const std::vector<ClockTime>& times) {
    const Wording& say = desk.say;
    Cell name;
    const bool before = is_before_plan(step);
    name.strong = {before ? say("schedule-step-before")
                          : say("schedule-step", {{"number", std::to_string(step.step->number)}})};
    std::string until;
    if (step.held)
        until = say("schedule-step-held", {{"date", say.short_date(step.last)}});
    else if (step.step->days)
        until = say("schedule-step-to", {{"date", say.short_date(step.last)}});
    else if (!step.step->doses.empty())
        until = say("schedule-step-open");
    name.lines = {
        before ? until
               : joined({say("schedule-step-from", {{"date", say.short_date(step.from)}}), until}, " ")};
    const bool stays = stays_as_it_is(desk, step);
    if (is_cut(desk, *step.step) && !stays)
        name.lines.push_back(
            say(several_agents(desk) ? "schedule-cut-agent" : "schedule-cut",
                {{"agent", desk.agent()}, {"percent", print_percent(step.step->percent_of_last)}}));
    Row row = {name};
    for (const ClockTime at : times) row.push_back(dose_cell(desk, step, at, !stays));
    if (times.size() > 1 || several_agents(desk)) row.push_back(sum_cell(desk, *step.step));
    return row;
}

}  // namespace

bool several_agents(const PaperDesk& desk) {
    for (const FirmStep& step : desk.steps) {
        for (const auto& [key, was] : step.before)
            if (key.second != desk.drug) return true;
        for (const PlannedDose& dose : step.step->doses)
            if (dose.drug != desk.drug) return true;
    }
    return false;
}

std::vector<std::string> changes_in_words(const PaperDesk& desk, const FirmStep& step, Told told) {
    std::vector<std::string> lines;
    for (const ChangedDose& change : changes_of(step)) lines.push_back(change_in_words(desk, change, told));
    return lines;
}

Cell dose_cell(const PaperDesk& desk, const FirmStep& step, ClockTime at, bool first_day) {
    const auto changes = changes_of(step);
    Cell cell;
    for (const PlannedDose* dose : doses_at(*step.step, at)) {
        DoseInCell said = said_dose(desk, *dose);
        if (first_day) said.was = marked(desk, step, *dose, changes);
        cell.doses.push_back(std::move(said));
    }
    for (const ChangedDose& change : changes)
        if (change.at == at && change.now.is_zero() && first_day && several_agents(desk))
            cell.doses.push_back(
                {{}, {desk.say.agent(change.drug), desk.say("schedule-no-dose")}, was_text(desk, change)});
    if (cell.doses.empty()) {
        const ChangedDose* gone = change_at(changes, at, desk.drug);
        DoseInCell none{{}, {desk.say("schedule-no-dose")}, {}};
        if (gone && first_day) none.was = was_text(desk, *gone);
        cell.doses.push_back(std::move(none));
    }
    return cell;
}

Cell brief_cell(const PaperDesk& desk, const FirmStep& step, ClockTime at, bool first_day) {
    Cell cell = dose_cell(desk, step, at, first_day);
    const auto doses = doses_at(*step.step, at);
    for (std::size_t i = 0; i < doses.size(); ++i) {
        if (doses[i]->pieces.empty()) continue;
        const Args args = {{"agent", desk.say.agent(doses[i]->drug)},
                           {"amount", desk.say.brief_amount(doses[i]->pieces, doses[i]->amount)}};
        cell.doses[i].lines = {
            desk.say(several_agents(desk) ? "paper-dose-plain" : "schedule-brief-dose", args)};
    }
    return cell;
}

bool brief_is_clear(const PaperDesk& desk, const Step& step) {
    // What a drawing shows of a product: its shape, and its strength where another of the shape is about.
    using Drawn = std::pair<Form, Dose>;
    std::map<std::string, std::set<Product>> products;
    std::map<std::string, std::set<Drawn>> drawn;
    for (const PlannedDose& dose : step.doses)
        for (const Piece& piece : dose.pieces) {
            const Product& product = piece.product;
            const bool named = !is_liquid(product.form) && desk.say.tells_apart(product);
            products[dose.drug].insert(product);
            drawn[dose.drug].insert({drawn_as(product.form), named ? product.strength : Dose()});
        }
    const auto told_apart = [&](const auto& each) { return each.second.size() == drawn[each.first].size(); };
    return !products.empty() && std::ranges::all_of(products, told_apart);
}

std::vector<std::pair<std::string, Dose>> sums_of(const Step& step) {
    std::vector<std::pair<std::string, Dose>> sums;
    for (const PlannedDose& dose : step.doses) {
        const auto same =
            std::find_if(sums.begin(), sums.end(), [&](const auto& sum) { return sum.first == dose.drug; });
        if (same == sums.end())
            sums.emplace_back(dose.drug, dose.amount);
        else
            same->second += dose.amount;
    }
    return sums;
}

Cell sum_cell(const PaperDesk& desk, const Step& step) {
    const auto sums = sums_of(step);
    Cell cell;
    for (const auto& [drug, sum] : sums)
        cell.lines.push_back(sums.size() == 1 && !several_agents(desk)
                                 ? desk.say("schedule-sum", {{"amount", print_dose(sum)}})
                                 : desk.say("schedule-sum-agent",
                                            {{"agent", desk.say.agent(drug)}, {"amount", print_dose(sum)}}));
    return cell;
}

namespace {

/// The dose times of the steps, and those that end with the first one: that a dose falls away is said.
std::vector<ClockTime> times_of_table(const PaperDesk& desk) {
    std::set<ClockTime> times;
    for (const ClockTime at : dose_times(desk.steps)) times.insert(at);
    if (const FirmStep& first = desk.steps.front();
        !first.step->doses.empty() && !stays_as_it_is(desk, first))
        for (const ChangedDose& change : changes_of(first)) times.insert(change.at);
    return {times.begin(), times.end()};
}

}  // namespace

Table step_table(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const auto times = times_of_table(desk);
    Table table;
    table.goes_on = say("schedule-row-continued");
    table.columns.push_back({say("schedule-column-step"), {}, 2, false});
    for (const ClockTime at : times) table.columns.push_back({say.part(at), print_clock(at), 2, false});
    if (times.size() > 1 || several_agents(desk))
        table.columns.push_back({say("schedule-column-sum"), say("schedule-column-sum-note"),
                                 several_agents(desk) ? 1.75 : 1.4, true});
    for (const FirmStep& step : desk.steps) {
        if (step.step->doses.empty()) {
            table.groups.push_back(
                {{say("schedule-off", {{"date", say.date(step.from)}, {"agent", desk.agent()}})}, {}, {}});
            continue;
        }
        table.groups.push_back({{}, {}, {step_row(desk, step, times)}});
    }
    return table;
}

}  // namespace evenfall::papers
