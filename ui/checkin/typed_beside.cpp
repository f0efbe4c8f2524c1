// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/typed_beside.h"

#include <QComboBox>
#include <QLineEdit>
#include <algorithm>

#include "checkin/call_parts.h"
#include "checkin/form_item.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// Fields of one kind in the order in which they were made. Those that were put away, and wait to be deleted,
/// are left out.
template <class Field>
std::vector<std::pair<std::string, Field*>> fields_of(const QWidget& card, const char* kind) {
    std::vector<std::pair<std::string, Field*>> fields;
    int at = 0;
    for (Field* field : card.findChildren<Field*>())
        if (!is_put_away(*field))
            fields.emplace_back(to_utf8(card.accessibleName()) + "/" + kind + std::to_string(at++), field);
    return fields;
}

/// The words of those fields of a card that `counts` chooses.
template <class Counts>
TypedFields words_in(const QWidget& card, Counts counts) {
    TypedFields words;
    for (const auto& [name, choice] : fields_of<QComboBox>(card, "choice"))
        if (counts(choice)) words[name] = to_utf8(choice->currentText());
    for (const auto& [name, item] : fields_of<FormItem>(card, "item"))
        if (counts(item)) words[name] = item->answer() < 0 ? "" : std::to_string(item->answer());
    for (const auto& [name, line] : fields_of<QLineEdit>(card, "line"))
        if (counts(line)) words[name] = to_utf8(line->text());
    return words;
}

TypedFields words_in(const QWidget& card) {
    return words_in(card, [](const QWidget*) { return true; });
}

/// Choices first: a form's fields are made when it is chosen.
void put_into(QWidget& card, const TypedFields& words) {
    const auto each = [&words](const auto& fields, auto put) {
        for (const auto& [name, field] : fields)
            if (const auto found = words.find(name); found != words.end())
                put(*field, to_text(found->second));
    };
    each(fields_of<QComboBox>(card, "choice"), [](QComboBox& choice, const QString& text) {
        if (const int at = choice.findText(text); at >= 0) choice.setCurrentIndex(at);
    });
    each(fields_of<FormItem>(card, "item"),
         [](FormItem& item, const QString& text) { item.set_answer(text.isEmpty() ? -1 : text.toInt()); });
    each(fields_of<QLineEdit>(card, "line"),
         [](QLineEdit& line, const QString& text) { line.setText(text); });
}

}  // namespace

TypedBeside::TypedBeside(std::vector<QWidget*> cards) {
    for (QWidget* card : cards) cards_.push_back({card, {}});
    filled();
}

bool TypedBeside::holds(const QWidget* field) const {
    return std::ranges::any_of(cards_,
                               [field](const Watched& each) { return each.card->isAncestorOf(field); });
}

void TypedBeside::filled(const std::vector<QWidget*>& written) {
    const auto is_written = [&written](const QWidget* field) {
        return std::ranges::any_of(
            written, [field](const QWidget* each) { return each == field || each->isAncestorOf(field); });
    };
    for (Watched& each : cards_)
        for (auto& [name, words] : words_in(*each.card, is_written)) each.filled[name] = std::move(words);
}

void TypedBeside::filled() {
    for (Watched& each : cards_) each.filled = words_in(*each.card);
}

TypedFields TypedBeside::unwritten() const {
    TypedFields typed;
    for (const Watched& each : cards_)
        for (const auto& [name, words] : words_in(*each.card)) {
            const auto before = each.filled.find(name);
            if (words != (before == each.filled.end() ? std::string() : before->second)) typed[name] = words;
        }
    return typed;
}

void TypedBeside::put_back(const TypedFields& fields) {
    for (Watched& each : cards_) put_into(*each.card, fields);
}

}  // namespace evenfall::ui
