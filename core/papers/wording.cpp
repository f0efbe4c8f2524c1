// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/wording.h"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <sstream>

#include "units/dose_text.h"
#include "units/letters.h"

namespace evenfall::papers {
namespace {

/// The pieces of each product, in the order in which the products first stand.
std::vector<std::vector<Piece>> by_product(const std::vector<Piece>& pieces) {
    std::vector<std::vector<Piece>> groups;
    for (const Piece& piece : pieces) {
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const std::vector<Piece>& group) {
            return group.front().product == piece.product;
        });
        if (same == groups.end())
            groups.push_back({piece});
        else
            same->push_back(piece);
    }
    return groups;
}

/// Whether some of a dose is drawn up from a bottle, and the pieces make it.
bool is_measured(const std::vector<Piece>& pieces, Dose amount) {
    return amount_of(pieces) == amount &&
           std::ranges::any_of(pieces, [](const Piece& piece) { return piece.cut == Cut::ml; });
}

const std::string kMedicine = "paper-medicine-";

std::vector<std::string> words_of(const std::string& text) {
    std::istringstream stream(text);
    return {std::istream_iterator<std::string>(stream), {}};
}

}  // namespace

Form drawn_as(Form form) {
    if (is_liquid(form)) return Form::oral_solution;
    return form == Form::extended_release_capsule ? Form::capsule : form;
}

std::string joined(const std::vector<std::string>& texts, std::string_view separator) {
    std::string all;
    for (const std::string& text : texts) {
        if (text.empty()) continue;
        if (!all.empty()) all += separator;
        all += text;
    }
    return all;
}

std::string begun(std::string sentence) {
    if (!sentence.empty())
        sentence[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence[0])));
    return sentence;
}

std::string Wording::date(Day day) const {
    const auto fields = calendar(day);
    return texts_.text(
        "paper-date",
        {{"weekday", texts_.text("paper-weekday-" + std::to_string(weekday_from_monday(day) + 1))},
         {"day", std::to_string(static_cast<unsigned>(fields.day()))},
         {"month", texts_.text("paper-month-" + std::to_string(static_cast<unsigned>(fields.month())))},
         {"year", std::to_string(static_cast<int>(fields.year()))}});
}

std::string Wording::short_date(Day day) const {
    const auto fields = calendar(day);
    return texts_.text(
        "paper-date-short",
        {{"day", std::to_string(static_cast<unsigned>(fields.day()))},
         {"month", texts_.text("paper-month-short-" + std::to_string(static_cast<unsigned>(fields.month())))},
         {"year", std::to_string(static_cast<int>(fields.year()))}});
}

std::string Wording::day_date(Day day) const {
    const auto fields = calendar(day);
    return texts_.text("paper-date-day",
                       {{"weekday", weekday(day)},
                        {"day", std::to_string(static_cast<unsigned>(fields.day()))},
                        {"month", texts_.text("paper-month-short-" +
                                              std::to_string(static_cast<unsigned>(fields.month())))}});
}

std::string Wording::weekday(Day day) const {
    return texts_.text("paper-weekday-short-" + std::to_string(weekday_from_monday(day) + 1));
}

std::string Wording::day_count(int days) const {
    return texts_.text(days == 1 ? "paper-day-one" : "paper-day-many", {{"count", std::to_string(days)}});
}

std::string Wording::part(ClockTime at) const {
    const int hour = at.minutes / 60;
    if (hour < parts_.morning) return texts_.text("paper-part-night");
    if (hour < parts_.midday) return texts_.text("paper-part-morning");
    if (hour < parts_.afternoon) return texts_.text("paper-part-midday");
    if (hour < parts_.evening) return texts_.text("paper-part-afternoon");
    if (hour < parts_.bedtime) return texts_.text("paper-part-evening");
    return texts_.text("paper-part-bedtime");
}

std::string Wording::dose_time(ClockTime at) const {
    return texts_.text("paper-dose-time", {{"part", part(at)}, {"clock", print_clock(at)}});
}

std::string Wording::agent(const std::string& drug) const {
    const std::string id = "paper-agent-" + with_dashes(drug);
    return texts_.has(id) ? texts_.text(id) : drug;
}

std::string Wording::form_id(Form form, std::string_view which) const {
    return "paper-form-" + with_dashes(word(form)) + "-" + std::string(which);
}

std::string Wording::product(const Product& product) const {
    if (is_liquid(product.form))
        return texts_.text("paper-product-liquid", {{"strength", print_dose(product.strength)},
                                                    {"form", texts_.text(form_id(product.form, "one"))}});
    return texts_.text("paper-product", {{"strength", print_dose(product.strength)},
                                         {"units", texts_.text(form_id(product.form, "many"))}});
}

std::string Wording::dispensed(const Product& product) const {
    const std::string id = "pharmacy-form-" + with_dashes(word(product.form));
    if (!texts_.has(id)) return this->product(product);
    if (is_liquid(product.form))
        return texts_.text("paper-product-liquid",
                           {{"strength", print_dose(product.strength)}, {"form", texts_.text(id)}});
    return texts_.text("paper-product",
                       {{"strength", print_dose(product.strength)}, {"units", texts_.text(id)}});
}

std::string Wording::item(const std::string& item) const {
    for (const std::string& id : {"symptom." + item, "paper-item-" + with_dashes(item)})
        if (texts_.has(id)) return texts_.text(id);
    return begun(printable(item));
}

std::string Wording::medicine(const std::string& typed) const {
    const std::vector<std::string> words = words_of(printable(typed));
    // A sign that ends a word stays with it: "oxycodone, 5 mg".
    const auto bare = [](const std::string& word) {
        return in_lower_case(word.substr(0, word.find_last_not_of(".,;:") + 1));
    };
    const auto told = [&](const std::string& id, const std::string& last) {
        return texts_.text(id) + last.substr(last.find_last_not_of(".,;:") + 1);
    };
    std::vector<std::string> said;
    for (std::size_t at = 0; at < words.size(); ++at) {
        // Names of two words are looked for first: "valproic acid".
        const bool pair = at + 1 < words.size();
        const std::string one = kMedicine + bare(words[at]);
        const std::string two = pair ? kMedicine + in_lower_case(words[at]) + "-" + bare(words[at + 1]) : one;
        if (pair && texts_.has(two))
            said.push_back(told(two, words[++at]));
        else
            said.push_back(texts_.has(one) ? told(one, words[at]) : words[at]);
    }
    return joined(said, " ");
}

std::string Wording::of_each_cut(const std::vector<Piece>& pieces) const {
    std::vector<std::string> parts;
    parts.reserve(pieces.size());
    for (const Piece& piece : pieces) parts.push_back(of_one_product({piece}));
    return joined(parts, " + ");
}

std::string Wording::of_one_product(const std::vector<Piece>& pieces) const {
    const Product& product = pieces.front().product;
    if (pieces.size() > 1 && tells_apart(product)) return of_each_cut(pieces);
    std::vector<std::string> parts;
    bool whole_only = true;
    for (const Piece& piece : pieces) {
        const Args count = {{"count", std::to_string(piece.count)}};
        switch (piece.cut) {
            case Cut::ml:
                return texts_.text("paper-pieces-liquid", {{"volume", print_volume(piece.volume)},
                                                           {"strength", print_dose(product.strength)}});
            case Cut::whole:
                parts.push_back(std::to_string(piece.count) + " " +
                                texts_.text(form_id(product.form, piece.count == 1 ? "one" : "many")));
                continue;
            case Cut::half:
                parts.push_back(texts_.text(piece.count == 1 ? "paper-half" : "paper-halves", count));
                break;
            case Cut::quarter:
                parts.push_back(texts_.text(piece.count == 1 ? "paper-quarter" : "paper-quarters", count));
                break;
        }
        whole_only = false;
    }
    const std::string strength = print_dose(product.strength);
    const std::string all = joined(parts, " + ");
    if (whole_only) return texts_.text("paper-pieces-whole", {{"pieces", all}, {"strength", strength}});
    return texts_.text(
        "paper-pieces-cut",
        {{"pieces", all}, {"of", texts_.text(form_id(product.form, "of"), {{"strength", strength}})}});
}

std::vector<std::string> Wording::pieces(const std::vector<Piece>& pieces, Dose amount) const {
    const auto groups = by_product(pieces);
    if (groups.size() == 1) return {of_one_product(groups.front()) + " = " + print_dose(amount)};
    std::vector<std::string> lines;
    lines.reserve(groups.size() + 1);
    for (const auto& group : groups) lines.push_back((lines.empty() ? "" : "+ ") + of_each_cut(group));
    lines.push_back("= " + print_dose(amount));
    return lines;
}

std::string Wording::made(const std::vector<Piece>& pieces, Dose amount) const {
    if (pieces.empty() || amount_of(pieces) != amount) return print_dose(amount);
    return joined(this->pieces(pieces, amount), " ");
}

std::string Wording::amount(const std::vector<Piece>& pieces, Dose amount) const {
    if (!is_measured(pieces, amount)) return print_dose(amount);
    if (pieces.size() > 1) return pieces_only(pieces) + " = " + print_dose(amount);
    const Piece& liquid = pieces.front();
    return texts_.text("paper-amount-liquid", {{"volume", print_volume(liquid.volume)},
                                               {"strength", print_dose(liquid.product.strength)}}) +
           " = " + print_dose(amount);
}

std::string Wording::brief_amount(const std::vector<Piece>& pieces, Dose amount) const {
    if (!is_measured(pieces, amount) || pieces.size() > 1) return this->amount(pieces, amount);
    return print_volume(pieces.front().volume) + " = " + print_dose(amount);
}

std::string Wording::pieces_only(const std::vector<Piece>& pieces) const {
    const auto groups = by_product(pieces);
    if (groups.size() == 1) return of_one_product(groups.front());
    std::vector<std::string> parts;
    parts.reserve(groups.size());
    for (const auto& group : groups) parts.push_back(of_each_cut(group));
    return joined(parts, " + ");
}

namespace {

/// "1,204"; `separator` is the language's.
std::string grouped(int units, const std::string& separator) {
    std::string count = std::to_string(units);
    for (int at = static_cast<int>(count.size()) - 3; at > 0; at -= 3)
        count.insert(static_cast<std::size_t>(at), separator);
    return count;
}

}  // namespace

std::string Wording::quantity(const SupplyItem& item) const {
    if (is_liquid(item.product.form)) return print_volume(item.volume);
    return grouped(item.units, texts_.text("paper-thousands")) + " " +
           texts_.text(form_id(item.product.form, item.units == 1 ? "one" : "many"));
}

std::string Wording::quantity_of_product(const SupplyItem& item) const {
    const Product& product = item.product;
    if (is_liquid(product.form))
        return texts_.text("pharmacy-quantity-liquid",
                           {{"volume", print_volume(item.volume)}, {"product", dispensed(product)}});
    std::string units = "pharmacy-form-" + with_dashes(word(product.form));
    if (item.units == 1) units += "-one";
    if (!texts_.has(units)) units = form_id(product.form, item.units == 1 ? "one" : "many");
    return texts_.text("pharmacy-quantity", {{"count", grouped(item.units, texts_.text("paper-thousands"))},
                                             {"units", texts_.text(units)},
                                             {"strength", print_dose(product.strength)}});
}

}  // namespace evenfall::papers
