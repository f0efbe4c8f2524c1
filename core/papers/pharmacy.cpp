// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

using std::chrono::days;

constexpr std::ptrdiff_t kHomeRow = 2;  // behind the agents and their products

/// What is at home of one product, as pieces.
std::vector<Piece> as_pieces(const OnHand& on_hand) {
    std::vector<Piece> pieces;
    const auto put = [&](Cut cut, int count) {
        if (count > 0) pieces.push_back({on_hand.product, cut, count, {}});
    };
    if (is_liquid(on_hand.product.form)) {
        if (!on_hand.volume.is_zero()) pieces.push_back({on_hand.product, Cut::ml, 1, on_hand.volume});
        return pieces;
    }
    put(Cut::whole, on_hand.quarters / 4);
    put(Cut::half, on_hand.quarters % 4 / 2);
    put(Cut::quarter, on_hand.quarters % 2);
    return pieces;
}

std::string left_in_words(const PaperDesk& desk, const OnHand& on_hand) {
    const auto pieces = as_pieces(on_hand);
    if (pieces.empty()) return {};
    const std::string words = desk.say.pieces_only(pieces);
    return several_agents(desk) ? desk.say.agent(on_hand.product.drug) + ": " + words : words;
}

std::string item_in_words(const PaperDesk& desk, const SupplyItem& item) {
    const std::string quantity = desk.say.quantity_of_product(item);
    return several_agents(desk) ? desk.say.agent(item.product.drug) + ": " + quantity : quantity;
}

Row fill_row(const PaperDesk& desk, const Fill& fill, int number) {
    const Wording& say = desk.say;
    Cell name, items, covers, left;
    name.strong = {say("pharmacy-fill", {{"number", std::to_string(number)}})};
    name.lines = {joined({say.short_date(fill.from),
                          say("pharmacy-fill-through", {{"date", say.short_date(fill.to - days(1))}})},
                         " ")};
    for (const SupplyItem& item : fill.items) items.strong.push_back(item_in_words(desk, item));
    if (fill.items.empty()) items.lines.push_back(say("pharmacy-fill-none"));
    for (const OnHand& old : fill.too_old)
        items.lines.push_back(say("pharmacy-fill-too-old", {{"left", left_in_words(desk, old)}}));
    covers.lines = {
        say("pharmacy-fill-through", {{"date", say.short_date(fill.covers_hold_until - days(1))}})};
    for (const OnHand& on_hand : fill.left_over)
        if (std::string words = left_in_words(desk, on_hand); !words.empty())
            left.lines.push_back(std::move(words));
    if (left.lines.empty()) left.lines.push_back(say("pharmacy-left-none"));
    return {name, items, covers, left};
}

Table fill_table(const PaperDesk& desk) {
    const Wording& say = desk.say;
    Table table;
    table.columns = {{say("pharmacy-fill-column"), {}, 1.2, false},
                     {say("pharmacy-fill-items"), {}, 2.2, false},
                     {say("pharmacy-fill-covers"), {}, 1.2, false},
                     {say("pharmacy-fill-left"), {}, 1.6, false}};
    int number = 0;
    for (const Fill& fill : desk.source.supply->fills)
        table.groups.push_back({{}, {}, {fill_row(desk, fill, ++number)}});
    return table;
}

KeyValues totals(const PaperDesk& desk) {
    std::vector<SupplyItem> all;
    for (const Fill& fill : desk.source.supply->fills)
        for (const SupplyItem& item : fill.items) {
            const auto same = std::find_if(
                all.begin(), all.end(), [&](const SupplyItem& each) { return each.product == item.product; });
            if (same == all.end()) {
                all.push_back(item);
            } else {
                same->units += item.units;
                same->volume = same->volume + item.volume;
            }
        }
    KeyValues values;
    values.strong = true;
    for (const SupplyItem& item : all)
        values.rows.emplace_back(dispensed_in_words(desk, item.product), desk.say.quantity(item));
    return values;
}

/// Whether a dose of these directions is made of the product.
bool is_used(const PaperDesk& desk, const Product& product) {
    const auto is_of_it = [&](const Piece& piece) { return piece.product == product; };
    return products_of(desk, ForWhom::patient).contains(product) ||
           (starts_later(desk) && std::ranges::any_of(desk.source.before, [&](const PlannedDose& dose) {
                return std::ranges::any_of(dose.pieces, is_of_it);
            }));
}

/// What is left when the fills above are used and no dose needs any more: none of it goes back sooner.
std::vector<std::string> to_take_back(const PaperDesk& desk) {
    const Supply& supply = *desk.source.supply;
    std::vector<std::string> lines;
    for (const OnHand& on_hand : supply.surplus) {
        if (supply.fills.empty() || as_pieces(on_hand).empty()) continue;
        const Args args = {{"product", dispensed_in_words(desk, on_hand.product)},
                           {"date", desk.say.date(supply.fills.back().to - days(1))}};
        lines.push_back(
            desk.say(is_used(desk, on_hand.product) ? "pharmacy-back" : "pharmacy-back-now", args));
    }
    lines.push_back(desk.say("pharmacy-back-none"));
    return lines;
}

/// What is left at home today, and when it was counted; then what nobody counted.
std::string home_in_words(const PaperDesk& desk) {
    const PaperSource& source = desk.source;
    if (!source.counted_on) return {};
    std::vector<std::string> lines;
    for (const OnHand& on_hand : source.on_hand) lines.push_back(left_in_words(desk, on_hand));
    std::string all = joined(lines, "; ");
    if (all.empty()) all = desk.say("pharmacy-left-none");
    all = desk.say(*source.counted_on == source.as_of ? "pharmacy-home-today" : "pharmacy-home-counted",
                   {{"left", all}, {"date", desk.say.short_date(*source.counted_on)}});
    for (const std::string& agent : agents_on_sheet(desk))
        if (!source.counted.empty() && !source.counted.contains(agent))
            all += "; " + desk.say("pharmacy-home-uncounted", {{"agent", desk.say.agent(agent)}});
    return all;
}

/// The syringe that each liquid needs: its smallest mark, and the most that is drawn up at one time.
std::vector<std::string> syringes_in_words(const PaperDesk& desk) {
    std::vector<std::string> lines;
    for (const Product& product : products_of(desk, ForWhom::pharmacy)) {
        if (!is_liquid(product.form)) continue;
        Volume most;
        const auto look = [&](const std::vector<PlannedDose>& doses) {
            for (const PlannedDose& dose : doses)
                for (const Piece& piece : dose.pieces)
                    if (piece.product == product) most = std::max(most, piece.volume);
        };
        for (const FirmStep& step : desk.steps) look(step.step->doses);
        if (starts_later(desk)) look(desk.source.before);
        lines.push_back(desk.say("pharmacy-syringe-step", {{"product", dispensed_in_words(desk, product)},
                                                           {"step", print_volume(product.measure)},
                                                           {"most", print_volume(most)}}));
    }
    return lines;
}

/// What the pharmacist weighs when deciding on smaller fills: dangers that were reported and are not over,
/// and what the risk screen says of the same kind.
std::string dangers_to_weigh(const PaperDesk& desk) {
    std::vector<std::string> words = dangers_in_words(desk);
    for (const char* risk : {"suicidality", "breathing trouble"})
        if (desk.source.risks.contains(risk)) words.push_back(risk_in_words(desk, risk));
    return joined(words, ", ");
}

KeyValues particulars(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const PaperSource& source = desk.source;
    std::vector<std::string> names;
    for (const auto& [agent, products] : products_by_agent(desk, ForWhom::pharmacy))
        names.push_back(several_agents(desk) ? joined({agent, products}, " ") : products);
    KeyValues values;
    values.rows = {{say("pharmacy-agent"), agents_in_words(desk)},
                   {say("pharmacy-products"), joined(names, "; ")},
                   {say("pharmacy-interval"),
                    say("pharmacy-interval-days", {{"days", say.day_count(source.clinic.days_per_fill)}})},
                   {say("pharmacy-reserve"),
                    say("pharmacy-reserve-days", {{"days", say.day_count(source.clinic.reserve_days)}})},
                   {say("pharmacy-clinic"),
                    joined({printable(source.clinic.name), printable(source.clinic.phone)}, " · ")},
                   {say("paper-call-after"), printable(source.clinic.after_hours)}};
    if (std::string home = home_in_words(desk); !home.empty())
        values.rows.insert(values.rows.begin() + kHomeRow, {say("pharmacy-home"), std::move(home)});
    if (std::string medicines = joined(medicines_in_words(desk), "; "); !medicines.empty())
        values.rows.emplace_back(say("pharmacy-medicines"), std::move(medicines));
    if (source.risks.contains("opioid"))
        values.rows.emplace_back(
            say("pharmacy-opioid"),
            say(source.naloxone_at_home ? "pharmacy-opioid-naloxone" : "pharmacy-opioid-no-naloxone"));
    if (std::string dangers = dangers_to_weigh(desk); !dangers.empty())
        values.rows.emplace_back(say("pharmacy-danger"),
                                 begun(say("pharmacy-danger-ask", {{"dangers", dangers}})));
    for (std::string& syringe : syringes_in_words(desk))
        values.rows.insert(values.rows.begin() + kHomeRow, {say("pharmacy-syringe"), std::move(syringe)});
    return values;
}

/// The agents of these steps whose products are not known, and so not counted in the fills.
std::vector<std::string> not_counted(const PaperDesk& desk) {
    std::vector<std::string> agents;
    for (const FirmStep& step : desk.steps)
        for (const PlannedDose& dose : step.step->doses)
            if (dose.pieces.empty() && !std::ranges::count(agents, dose.drug)) agents.push_back(dose.drug);
    return agents;
}

}  // namespace

Document make_pharmacy(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Supply& supply = *desk.source.supply;
    const Day to = supply.fills.empty() ? desk.steps.back().last : supply.fills.back().to - days(1);
    const Day from = supply.fills.empty() ? desk.source.as_of : supply.fills.front().from;
    Document document =
        begin(Paper::pharmacy, desk, say("pharmacy-title", {{"agent", agents_in_words(desk)}}),
              say("pharmacy-subtitle", {{"from", say.date(from)}, {"to", say.date(to)}}));
    add(document, particulars(desk));
    add(document, Heading{say("pharmacy-fills-heading"), 1}, true);
    add(document, fill_table(desk), !supply.fills.empty());
    if (!supply.fills.empty())
        add(document, List{{say("pharmacy-fill-held"), say("pharmacy-fill-any-hold")}, false});
    if (const auto agents = not_counted(desk); !agents.empty())
        add(document,
            Paragraph{say("pharmacy-not-counted", {{"agents", in_one_phrase(desk, agents)}}), true});
    if (!supply.fills.empty()) {
        add(document, Heading{say("pharmacy-total-heading"), 2}, true);
        if (KeyValues all = totals(desk); !all.rows.empty())
            add(document, std::move(all));
        else
            add(document, Paragraph{say("pharmacy-fill-none"), true});
    }
    add(document, Heading{say("pharmacy-doses-heading"), 1}, true);
    if (desk.source.hold) add(document, Paragraph{told_hold(desk, "pharmacy-hold"), true}, true);
    add_until_start(document, desk, "pharmacy-until-start", ForWhom::pharmacy);
    add(document, step_table(desk));
    add(document, Heading{say("pharmacy-back-heading"), 2}, true);
    add(document, List{to_take_back(desk), false});
    add(document, Heading{say("pharmacy-ask-heading"), 2}, true);
    List asked{{say("pharmacy-ask-strength"), say("pharmacy-ask-partial"), say("pharmacy-ask-limits"),
                say("pharmacy-ask-label")},
               false};
    if (std::ranges::any_of(products_of(desk, ForWhom::pharmacy),
                            [](const Product& product) { return is_liquid(product.form); }))
        asked.items.push_back(say("pharmacy-ask-liquid"));
    if (!desk.steps.back().step->doses.empty()) asked.items.push_back(say("pharmacy-ask-outlook"));
    add(document, std::move(asked), true);
    add(document,
        prescriber_lines(desk, say(desk.source.plan_id.empty() ? "pharmacy-sign-by-hand" : "pharmacy-sign")));
    return document;
}

}  // namespace evenfall::papers
