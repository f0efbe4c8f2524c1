// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

constexpr std::size_t kMostTimesInShort = 4;    // more make the leading row as high as a page of large print
constexpr std::size_t kMostSigns = 3;           // explained on one line
constexpr std::size_t kMostTimesWithNotes = 2;  // more dose times leave no room to write beside them

/// What begins with a step: the changed doses and the sum of the day.
std::vector<std::string> band_of(const PaperDesk& desk, const FirmStep& step) {
    const Wording& say = desk.say;
    std::vector<std::string> band = {
        is_before_plan(step) ? say("schedule-band-before", {{"date", say.date(step.last)}})
                             : say("schedule-band", {{"number", std::to_string(step.step->number)},
                                                     {"date", say.date(step.from)}})};
    if (!stays_as_it_is(desk, step))
        for (std::string& change : changes_in_words(desk, step)) band.push_back(std::move(change));
    std::vector<std::string> sums;
    for (const auto& [agent, sum] : sums_of(*step.step))
        sums.push_back(say("paper-dose-plain", {{"agent", say.agent(agent)}, {"amount", print_dose(sum)}}));
    if (step.step->doses.size() > 1 && several_agents(desk))
        band.push_back(say("schedule-band-sums", {{"sums", joined(sums, "; ")}}));
    else if (step.step->doses.size() > 1)
        band.push_back(say("schedule-band-sum", {{"amount", print_dose(step.step->daily)}}));
    else if (step.step->doses.size() == 1)
        band.push_back(say("schedule-band-single"));
    return band;
}

/// The pieces of a step in words, once for all its days.
Row lead_row(const PaperDesk& desk, const FirmStep& step, const std::vector<ClockTime>& times) {
    Cell each_day;
    each_day.strong = {desk.say("schedule-each-day")};
    Row row = {each_day};
    for (const ClockTime at : times) row.push_back(dose_cell(desk, step, at, false));
    if (times.size() <= kMostTimesWithNotes) row.emplace_back();
    return row;
}

Row day_row(const PaperDesk& desk, const FirmStep& step, Day day, const std::vector<ClockTime>& times,
            bool brief) {
    Cell date;
    date.strong = {desk.say.day_date(day)};
    Row row = {date};
    const bool first = day == step.from;
    for (const ClockTime at : times) {
        Cell cell = brief ? brief_cell(desk, step, at, first) : dose_cell(desk, step, at, first);
        const std::size_t doses = doses_at(*step.step, at).size();
        cell.tick_box = doses > 0;
        for (std::size_t i = 0; doses > 1 && i < doses; ++i) cell.doses[i].tick_box = true;
        row.push_back(std::move(cell));
    }
    if (times.size() <= kMostTimesWithNotes) row.emplace_back();
    return row;
}

/// What stands above the days of a step on its later pages. Its days say no year.
std::string continued_band(const PaperDesk& desk, const FirmStep& step) {
    if (is_before_plan(step))
        return desk.say("schedule-band-before-continued", {{"date", desk.say.short_date(step.last)}});
    const bool open = !step.step->days && !step.held;
    return desk.say(open ? "schedule-band-continued-open" : "schedule-band-continued",
                    {{"number", std::to_string(step.step->number)},
                     {"from", desk.say.short_date(step.from)},
                     {"to", desk.say.short_date(step.last)}});
}

Group day_group(const PaperDesk& desk, const FirmStep& step, const std::vector<ClockTime>& times) {
    const bool brief = times.size() <= kMostTimesInShort && brief_is_clear(desk, *step.step);
    Group group;
    group.band = band_of(desk, step);
    group.continued = continued_band(desk, step);
    if (brief) group.lead = lead_row(desk, step, times);
    for (Day day = std::max(step.from, desk.source.as_of); day <= step.last; day += std::chrono::days(1))
        group.rows.push_back(day_row(desk, step, day, times, brief));
    return group;
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
    table.goes_on = say("schedule-row-continued");
    // Its date stays on one line however many dose times share the width.
    const double day_share = times.size() <= 1 ? 0.8 : 0.4 * static_cast<double>(times.size());
    table.columns.push_back({say("schedule-column-day"), {}, day_share, false});
    for (const ClockTime at : times) table.columns.push_back({say.part(at), print_clock(at), 2, false});
    if (times.size() <= kMostTimesWithNotes)
        table.columns.push_back({say("schedule-column-notes"), {}, 0.7, false, true});
    for (const FirmStep& step : desk.steps)
        table.groups.push_back(step.step->doses.empty() ? off_group(desk, step)
                                                        : day_group(desk, step, times));
    return table;
}

bool cuts_anything(const PaperDesk& desk) {
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            for (const Piece& piece : dose.pieces)
                if (piece.cut == Cut::half || piece.cut == Cut::quarter) return true;
    return false;
}

/// Whether two strengths of one shape stand on the sheet, so that the drawings name theirs.
bool tells_any_apart(const PaperDesk& desk) {
    return std::ranges::any_of(products_of(desk, ForWhom::patient),
                               [&](const Product& each) { return desk.say.tells_apart(each); });
}

/// Whether a day of the sheet shows a dose that changes on it.
bool shows_a_change(const PaperDesk& desk) {
    return std::ranges::any_of(desk.steps, [&](const FirmStep& step) {
        if (step.step->doses.empty() || step.from < desk.source.as_of) return false;
        return std::ranges::any_of(dose_times(desk.steps), [&](ClockTime at) {
            return std::ranges::any_of(dose_cell(desk, step, at, true).doses,
                                       [](const DoseInCell& dose) { return !dose.was.empty(); });
        });
    });
}

/// Why the doses of some agents have no drawing; empty where all have one.
std::string not_drawn(const PaperDesk& desk) {
    std::vector<std::string> agents;
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            if (dose.pieces.empty() && !std::ranges::count(agents, dose.drug)) agents.push_back(dose.drug);
    return agents.empty() ? std::string()
                          : begun(desk.say("schedule-not-drawn", {{"agents", in_one_phrase(desk, agents)}}));
}

std::optional<Side> liquid_advice(const PaperDesk& desk) {
    const Wording& say = desk.say;
    std::vector<std::string> strengths, marks;
    for (const Product& product : products_of(desk, ForWhom::patient)) {
        if (!is_liquid(product.form)) continue;
        strengths.push_back(say("schedule-liquid-strength", {{"strength", print_dose(product.strength)}}));
        marks.push_back(print_volume(product.measure));
    }
    if (strengths.empty()) return std::nullopt;
    std::ranges::sort(marks);
    marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
    return Side{
        say("schedule-liquid-title"),
        {say("schedule-liquid-label", {{"strengths", joined(strengths, ", ")}}),
         say("schedule-liquid-syringe"), say("schedule-liquid-mark", {{"steps", joined(marks, ", ")}})}};
}

/// How tablets are cut.
Side cutting(const PaperDesk& desk) {
    const Wording& say = desk.say;
    Side side;
    side.title = say("schedule-cut-title");
    side.items = {say("schedule-cut-one"), say("schedule-cut-rest"), say("schedule-cut-help")};
    // Halves of two strengths look alike.
    if (tells_any_apart(desk)) side.items.push_back(say("schedule-cut-apart"));
    return side;
}

/// What to do with a forgotten dose of an agent.
Side missed_dose(const PaperDesk& desk, const std::string& agent, const Drug& drug) {
    const Wording& say = desk.say;
    return {say("schedule-missed-title", {{"agent", say.agent(agent)}}),
            {say("schedule-missed-never"), say(drug.missed_dose_rule), say("schedule-missed-call"),
             say("schedule-missed-approved")}};
}

std::optional<Side> validity(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const FirmStep& last = desk.steps.back();
    if (last.step->doses.empty()) return std::nullopt;
    const std::string days = say.day_count(std::max(1, desk.source.clinic.reserve_days));
    return Side{say("schedule-until-title"),
                {say("schedule-until", {{"date", say.date(last.last)}}), say("schedule-until-next"),
                 say("schedule-until-run-out", {{"days", days}}), say("schedule-until-outlook")}};
}

/// How modified-release products are taken.
void add_swallowing(Document& document, const PaperDesk& desk) {
    for (const Product& product : products_of(desk, ForWhom::patient))
        if (is_modified_release(product.form))
            add(document,
                Paragraph{desk.say("schedule-swallow-whole", {{"product", desk.say.product(product)}}),
                          true});
}

/// What holds beside the table: until when, a forgotten dose of each agent, cutting and measuring, whom to
/// call.
void add_advice(Document& document, const PaperDesk& desk) {
    std::vector<Side> sides;
    if (auto side = validity(desk)) sides.push_back(std::move(*side));
    for (const std::string& agent : agents_on_sheet(desk))
        if (const Drug* drug = desk.source.formulary->find(agent))
            sides.push_back(missed_dose(desk, agent, *drug));
    if (cuts_anything(desk)) sides.push_back(cutting(desk));
    if (auto side = liquid_advice(desk)) sides.push_back(std::move(*side));
    sides.push_back(whom_to_call(desk));
    add(document, Sides{std::move(sides)}, true);
}

Notice notice_of(const PaperDesk& desk) {
    const Wording& say = desk.say;
    return {
        say("schedule-notice"),
        {say("schedule-notice-seizure"), say("schedule-notice-hard"),
         say("schedule-notice-emergency", {{"emergency", printable(desk.source.clinic.emergency_number)}}),
         say("schedule-notice-suicide", {{"emergency", printable(desk.source.clinic.emergency_number)},
                                         {"crisis", printable(desk.source.clinic.crisis_number)}})}};
}

/// What the sheet on the wall needs to be read alone: its signs, and what holds after its last day.
List how_to_read(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Clinic& clinic = desk.source.clinic;
    std::vector<std::string> legend = {say("schedule-legend-take")};
    if (cuts_anything(desk)) legend.push_back(say("schedule-legend-cut"));
    if (tells_any_apart(desk)) legend.push_back(say("schedule-legend-strength"));
    std::vector<std::string> rest = {say("schedule-legend-tick")};
    if (shows_a_change(desk)) rest.insert(rest.begin(), say("schedule-legend-change"));
    List list;
    if (legend.size() + rest.size() <= kMostSigns)
        legend.insert(legend.end(), rest.begin(), rest.end());
    else
        list.items.push_back(joined(rest, " "));
    list.items.insert(list.items.begin(), joined(legend, " "));
    if (std::string agents = not_drawn(desk); !agents.empty()) list.items.push_back(std::move(agents));
    const auto at_night = [&](ClockTime at) { return at.minutes < desk.source.parts.morning * 60; };
    if (std::ranges::any_of(dose_times(desk.steps), at_night))
        list.items.push_back(say("schedule-legend-night"));
    list.items.push_back(
        say("schedule-call", {{"phone", printable(clinic.phone)}, {"after", printable(clinic.after_hours)}}));
    return list;
}

/// When nothing is taken, and until when it holds.
List when_it_holds(const PaperDesk& desk) {
    const Wording& say = desk.say;
    std::vector<std::string> times;
    for (const ClockTime at : dose_times(desk.steps)) times.push_back(say.dose_time(at));
    List list;
    // Until the first step the dose times are those of the list above.
    if (!times.empty())
        list.items.push_back(
            say(starts_later(desk) ? "schedule-times-from" : "schedule-times",
                {{"times", joined(times, ", ")}, {"date", say.date(desk.steps.front().from)}}));
    const FirmStep& last = desk.steps.back();
    if (last.step->doses.empty()) return list;
    list.items.push_back(say("schedule-until", {{"date", say.date(last.last)}}));
    list.items.push_back(say("schedule-until-next"));
    return list;
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
    Document document = begin(Paper::schedule, desk,
                              say("schedule-title", {{"agent", agents_in_words(desk)}}), span_of(desk));
    for (const auto& [agent, products] : products_by_agent(desk, ForWhom::patient))
        add(document, Paragraph{say("schedule-products", {{"agent", agent}, {"products", products}}), true});
    add(document, notice_of(desk));
    add_until_start(document, desk, "schedule-until-start", ForWhom::patient);
    if (desk.source.hold) add(document, Paragraph{told_hold(desk, "schedule-hold"), true});
    add(document, Heading{say("schedule-steps-heading"), 2}, true);
    add(document, step_table(desk));
    if (const std::string agents = not_drawn(desk); !agents.empty()) add(document, Paragraph{agents, false});
    add_swallowing(document, desk);
    add_advice(document, desk);
    add(document, prescriber_lines(
                      desk, say("schedule-sign", {{"name", printable(desk.source.person.name)},
                                                  {"reference", printable(desk.source.person.reference)}})));
    add(document, PageBreak{});
    add(document, Heading{begun(say("schedule-days-heading", {{"agent", agents_in_words(desk)}})), 1}, true);
    // What this part needs to be safe is said in it: it is read alone. The notice stands before its days.
    const Person& person = desk.source.person;
    add(document,
        Paragraph{joined({printable(person.name),
                          say("paper-patient-reference", {{"reference", printable(person.reference)}})},
                         " · "),
                  false},
        true);
    add(document, notice_of(desk), true);
    add_until_start(document, desk, "schedule-until-start", ForWhom::patient);
    if (List holds = when_it_holds(desk); !holds.items.empty()) {
        add(document, std::move(holds));
        document.blocks.back().may_end = true;
    }
    add(document, how_to_read(desk));
    document.blocks.back().may_end = true;
    add(document, day_table(desk));
    return document;
}

}  // namespace evenfall::papers
