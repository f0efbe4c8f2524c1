// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

constexpr std::size_t kMostTimesWithNotes = 2;  // more dose times leave no room to write beside them

std::set<Product> products_of(const PaperDesk& desk) {
    std::set<Product> products;
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            for (const Piece& piece : dose.pieces) products.insert(piece.product);
    return products;
}

bool has_sum(const PaperDesk& desk, const std::vector<ClockTime>& times) {
    return times.size() > 1 || several_agents(desk);
}

std::string change_in_words(const PaperDesk& desk, const ChangedDose& change) {
    const Wording& say = desk.say;
    const Args args = {{"time", say.dose_time(change.at)},
                       {"agent", say.agent(change.drug)},
                       {"amount", print_dose(change.now)},
                       {"was", print_dose(change.was)}};
    if (change.now.is_zero()) return say("schedule-band-stops", args);
    if (change.was.is_zero()) return say("schedule-band-new", args);
    return say(several_agents(desk) ? "schedule-band-change-agent" : "schedule-band-change", args);
}

/// What begins with a step: the changed doses and the sum of the day.
std::vector<std::string> band_of(const PaperDesk& desk, const FirmStep& step) {
    const Wording& say = desk.say;
    std::vector<std::string> band = {
        say("schedule-band", {{"number", std::to_string(step.step->number)}, {"date", say.date(step.from)}})};
    for (const ChangedDose& change : changes_of(step)) band.push_back(change_in_words(desk, change));
    if (step.step->doses.size() > 1 && !several_agents(desk))
        band.push_back(say("schedule-band-sum", {{"amount", print_dose(step.step->daily)}}));
    else if (step.step->doses.size() == 1)
        band.push_back(say("schedule-band-single"));
    return band;
}

Row day_row(const PaperDesk& desk, const FirmStep& step, Day day, const std::vector<ClockTime>& times) {
    Cell date;
    date.strong = {desk.say.weekday(day)};
    date.lines = {desk.say.short_date(day)};
    Row row = {date};
    for (const ClockTime at : times) {
        Cell cell = dose_cell(desk, step, at, day == step.from);
        cell.tick_box = !doses_at(*step.step, at).empty();
        row.push_back(std::move(cell));
    }
    if (has_sum(desk, times)) row.push_back(sum_cell(desk, *step.step));
    if (times.size() <= kMostTimesWithNotes) row.emplace_back();
    return row;
}

Group off_group(const PaperDesk& desk, const FirmStep& step) {
    const Wording& say = desk.say;
    return {{say("schedule-off", {{"date", say.date(step.from)}, {"agent", desk.agent()}}),
             say("schedule-off-tolerance"), say("schedule-off-return")},
            {},
            {}};
}

Table day_table(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const auto times = dose_times(desk.steps);
    Table table;
    table.columns.push_back({say("schedule-column-day"), {}, 1.1, false});
    for (const ClockTime at : times) table.columns.push_back({say.part(at), print_clock(at), 2, false});
    if (has_sum(desk, times))
        table.columns.push_back({say("schedule-column-sum"), say("schedule-column-sum-note"),
                                 several_agents(desk) ? 1.7 : 1.0, true});
    if (times.size() <= kMostTimesWithNotes)
        table.columns.push_back({say("schedule-column-notes"), {}, 0.7, false});
    for (const FirmStep& step : desk.steps) {
        if (step.step->doses.empty()) {
            table.groups.push_back(off_group(desk, step));
            continue;
        }
        Group group{band_of(desk, step),
                    say("schedule-band-continued", {{"number", std::to_string(step.step->number)}}),
                    {}};
        for (Day day = std::max(step.from, desk.source.as_of); day <= step.last; day += std::chrono::days(1))
            group.rows.push_back(day_row(desk, step, day, times));
        table.groups.push_back(std::move(group));
    }
    return table;
}

void add_until_start(Document& document, const PaperDesk& desk) {
    const Day first = desk.steps.front().from;
    if (first <= desk.source.as_of) return;
    const std::string until = desk.say.date(first - std::chrono::days(1));
    add(document, Paragraph{desk.say("schedule-until-start", {{"date", until}}), true}, true);
    add(document, List{doses_in_words(desk, desk.source.plan->start), false});
}

void add_pieces_advice(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    bool cut = false;
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            for (const Piece& piece : dose.pieces) cut |= piece.cut == Cut::half || piece.cut == Cut::quarter;
    if (cut) {
        add(document, Heading{say("schedule-cut-title"), 2}, true);
        add(document,
            List{{say("schedule-cut-one"), say("schedule-cut-rest"), say("schedule-cut-help")}, false});
    }
    std::vector<std::string> strengths;
    for (const Product& product : products_of(desk))
        if (is_liquid(product.form))
            strengths.push_back(
                say("schedule-liquid-strength", {{"strength", print_dose(product.strength)}}));
    if (strengths.empty()) return;
    add(document, Heading{say("schedule-liquid-title"), 2}, true);
    add(document, List{{say("schedule-liquid-label", {{"strengths", joined(strengths, ", ")}}),
                        say("schedule-liquid-syringe")},
                       false});
}

/// The agents of the days that this sheet covers, the plan's own first.
std::vector<std::string> agents_on_sheet(const PaperDesk& desk) {
    std::vector<std::string> agents{desk.drug};
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            if (std::ranges::find(agents, dose.drug) == agents.end()) agents.push_back(dose.drug);
    return agents;
}

/// What to do with a forgotten dose, for each agent of the sheet, and how modified-release products are
/// taken.
void add_missed_dose(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    for (const std::string& agent : agents_on_sheet(desk)) {
        const Drug* drug = desk.source.formulary->find(agent);
        if (!drug) continue;
        add(document, Heading{say("schedule-missed-title", {{"agent", say.agent(agent)}}), 2}, true);
        add(document, List{{say("schedule-missed-never"), say(drug->missed_dose_rule),
                            say("schedule-missed-call"), say("schedule-missed-approved")},
                           false});
    }
    for (const Product& product : desk.source.plan->products)
        if (is_modified_release(product.form))
            add(document,
                Paragraph{say("schedule-swallow-whole", {{"product", product_name(product)}}), true});
}

void add_validity(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    const FirmStep& last = desk.steps.back();
    if (last.step->doses.empty()) return;
    add(document, Heading{say("schedule-until-title"), 2}, true);
    const std::string days = say.day_count(std::max(1, desk.source.clinic.reserve_days));
    std::vector<std::string> lines = {
        say("schedule-until", {{"date", say.date(last.last)}}), say("schedule-until-next"),
        say("schedule-until-run-out", {{"days", days}}), say("schedule-until-outlook")};
    add(document, List{std::move(lines), false});
}

void add_signature(Document& document, const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Prescriber& prescriber = desk.source.prescriber;
    add(document, Signature{say("schedule-sign"),
                            {{say("paper-sign-prescriber"), printable(prescriber.name)},
                             {say("paper-sign-licence"), printable(prescriber.licence)},
                             {say("paper-sign-signature"), {}},
                             {say("paper-sign-date"), {}}}});
}

Notice notice_of(const PaperDesk& desk) {
    const Wording& say = desk.say;
    return {
        say("schedule-notice"),
        {say("schedule-notice-seizure"), say("schedule-notice-hard"),
         say("schedule-notice-emergency", {{"emergency", printable(desk.source.clinic.emergency_number)}})}};
}

/// The same for the sheet that hangs on its own.
Notice short_notice_of(const PaperDesk& desk) {
    Notice notice = notice_of(desk);
    notice.lines.erase(notice.lines.begin());
    return notice;
}

std::string span_of(const PaperDesk& desk) {
    const Day from = std::max(desk.steps.front().from, desk.source.as_of);
    const FirmStep& last = desk.steps.back();
    if (last.step->doses.empty()) return desk.say("schedule-from", {{"from", desk.say.date(from)}});
    return desk.say("schedule-span", {{"from", desk.say.date(from)}, {"to", desk.say.date(last.last)}});
}

}  // namespace

Document make_schedule(const PaperDesk& desk) {
    const Wording& say = desk.say;
    Document document =
        begin(Paper::schedule, desk, say("schedule-title", {{"agent", desk.agent()}}), span_of(desk));
    std::vector<std::string> products;
    for (const Product& product : products_of(desk)) products.push_back(say.product(product));
    if (!products.empty())
        add(document, Paragraph{say("schedule-products",
                                    {{"agent", desk.agent()}, {"products", joined(products, ", ")}}),
                                true});
    add(document, notice_of(desk));
    add_until_start(document, desk);
    if (desk.source.hold)
        add(document,
            Paragraph{say("schedule-hold", {{"date", say.date(desk.source.hold->review_on)}}), true});
    add(document, Heading{say("schedule-steps-heading"), 2}, true);
    add(document, step_table(desk));
    add_validity(document, desk);
    add_missed_dose(document, desk);
    add_whom_to_call(document, desk);
    add_pieces_advice(document, desk);
    add_signature(document, desk);
    add(document, PageBreak{});
    add(document, Heading{say("schedule-days-heading"), 1}, true);
    add(document, short_notice_of(desk), true);
    add(document, Paragraph{say("schedule-legend"), false}, true);
    add(document, day_table(desk));
    return document;
}

}  // namespace evenfall::papers
