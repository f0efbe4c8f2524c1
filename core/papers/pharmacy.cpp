// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "papers/common.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

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
    return several_agents(desk) ? desk.say.agent(on_hand.product.drug) + " " + words : words;
}

std::string item_in_words(const PaperDesk& desk, const SupplyItem& item) {
    return desk.say("pharmacy-fill-item", {{"quantity", desk.say.quantity(item)},
                                           {"product", product_in_words(desk, item.product)}});
}

Row fill_row(const PaperDesk& desk, const Fill& fill, int number) {
    const Wording& say = desk.say;
    Cell name, items, covers, left;
    name.strong = {say("pharmacy-fill", {{"number", std::to_string(number)}})};
    name.lines = {say.short_date(fill.from),
                  say("pharmacy-fill-before", {{"date", say.short_date(fill.to)}})};
    for (const SupplyItem& item : fill.items) items.strong.push_back(item_in_words(desk, item));
    if (fill.items.empty()) items.lines.push_back(say("pharmacy-fill-none"));
    covers.lines = {say("pharmacy-fill-before", {{"date", say.short_date(fill.covers_hold_until)}})};
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
        values.rows.emplace_back(product_in_words(desk, item.product), desk.say.quantity(item));
    return values;
}

/// What is left when the fills above are used and no dose needs any more: none of it goes back sooner.
std::vector<std::string> to_take_back(const PaperDesk& desk) {
    const Supply& supply = *desk.source.supply;
    std::vector<std::string> lines;
    for (const OnHand& on_hand : supply.surplus)
        if (!supply.fills.empty() && !as_pieces(on_hand).empty())
            lines.push_back(desk.say("pharmacy-back", {{"product", product_in_words(desk, on_hand.product)},
                                                       {"date", desk.say.date(supply.fills.back().to)}}));
    lines.push_back(desk.say("pharmacy-back-none"));
    return lines;
}

KeyValues particulars(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const PaperSource& source = desk.source;
    std::vector<std::string> names;
    for (const auto& [agent, products] : products_by_agent(desk, true))
        names.push_back(several_agents(desk) ? agent + " " + products : products);
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
    return values;
}

}  // namespace

Document make_pharmacy(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Supply& supply = *desk.source.supply;
    const Day to =
        supply.fills.empty() ? desk.steps.back().last : supply.fills.back().to - std::chrono::days(1);
    const Day from = supply.fills.empty() ? desk.source.as_of : supply.fills.front().from;
    Document document =
        begin(Paper::pharmacy, desk, say("pharmacy-title", {{"agent", agents_in_words(desk)}}),
              say("pharmacy-subtitle", {{"from", say.date(from)}, {"to", say.date(to)}}));
    add(document, particulars(desk));
    add(document, Heading{say("pharmacy-fills-heading"), 1}, true);
    add(document, fill_table(desk));
    if (KeyValues all = totals(desk); !all.rows.empty()) {
        add(document, Heading{say("pharmacy-total-heading"), 2}, true);
        add(document, std::move(all));
    }
    add(document, Heading{say("pharmacy-doses-heading"), 1}, true);
    if (desk.source.hold)
        add(document,
            Paragraph{say("pharmacy-hold", {{"date", say.date(desk.source.hold->review_on)}}), true}, true);
    add_until_start(document, desk, "pharmacy-until-start");
    add(document, step_table(desk));
    add(document, Heading{say("pharmacy-back-heading"), 2}, true);
    add(document, List{to_take_back(desk), false});
    add(document, Heading{say("pharmacy-ask-heading"), 2}, true);
    add(document,
        List{{say("pharmacy-ask-strength"), say("pharmacy-ask-partial"), say("pharmacy-ask-limits"),
              say("pharmacy-ask-label"), say("pharmacy-ask-outlook")},
             false},
        true);
    add(document, prescriber_lines(desk, say("pharmacy-sign")));
    return document;
}

}  // namespace evenfall::papers
