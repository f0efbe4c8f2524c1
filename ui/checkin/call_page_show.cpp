// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGridLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScopedValueRollback>
#include <algorithm>

#include "checkin/call_page.h"
#include "checkin/call_parts.h"
#include "checkin/danger_card.h"
#include "checkin/danger_questions.h"
#include "checkin/day_strip.h"
#include "checkin/older_call.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "diary/score_cell.h"
#include "texts/render.h"

namespace evenfall::ui {

void CallPage::show_head() {
    const PatientRecord& record = *workbench().record();
    const QString phone = record.person ? to_text(record.person->value.phone) : QString();
    who_->setText(phone.isEmpty() ? tr("No number to call is recorded") : tr("Call %1").arg(phone));
    draft_->setVisible(!draft_->text().isEmpty());
    findChild<QPushButton*>(QStringLiteral("anew"))->setVisible(!form_.empty());
    when_->setText(call_head_words(record, asks_, workbench().today()));
}

void CallPage::show_scores(const std::vector<std::string>& items, QGridLayout& grid, bool function,
                           std::vector<ScoreCell*>& cells) {
    const bool same = std::ranges::equal(items, cells, {}, {}, &ScoreCell::item);
    if (!same) {
        clear_layout(grid);
        cells.clear();
        for (const std::string& item : items) {
            auto* cell = new ScoreCell(item, this);
            cells.push_back(cell);
            const auto scored = [this, cell, function] {
                touch();
                auto& scores = function ? form_.function : form_.scores;
                if (cell->score())
                    scores[cell->item()] = *cell->score();
                else
                    scores.erase(cell->item());
                keep();
            };
            connect(cell, &ScoreCell::scored, this, [this, scored] {
                scored();
                focusNextChild();
            });
            connect(cell, &ScoreCell::taken_out, this, scored);
            connect(cell, &ScoreCell::step_wanted, this, [this](int by) { focusNextPrevChild(by > 0); });
        }
    }
    const auto& scores = function ? form_.function : form_.scores;
    for (ScoreCell* cell : cells) {
        const auto found = scores.find(cell->item());
        cell->set_score(found == scores.end() ? std::nullopt : std::optional(found->second));
    }
    if (!same) lay_out_scores(grid, cells, asks_, function);
}

void CallPage::show_counts() {
    std::vector<std::string> names;
    for (const Product& product : asks_.products) names.push_back(product_name(product));
    std::ranges::sort(names);
    const bool same = std::ranges::equal(names, counts_, {}, {}, [](const auto& each) { return each.first; });
    findChild<Card*>(QStringLiteral("counts"))->setVisible(!names.empty());
    if (same) return;
    clear_layout(*count_grid_);
    counts_.clear();
    int row = 0;
    for (const std::string& name : names) {
        auto* line = make_line(tr("Left at home: %1").arg(to_text(name)));
        line->setFixedWidth(96);
        count_grid_->addWidget(new Label(to_text(name)), row, 0);
        count_grid_->addWidget(line, row, 1, Qt::AlignLeft);
        const auto product = std::ranges::find(asks_.products, name, &product_name);
        const QString unit = is_liquid(product->form) ? tr("mL") : tr("units");
        count_grid_->addWidget(new Label(unit, Type::text, Tone::soft_ink), row++, 2);
        counts_[name] = line;
        connect(line, &QLineEdit::textEdited, this, [this, name](const QString& text) {
            touch();
            if (text.trimmed().isEmpty())
                form_.counted.erase(name);
            else
                form_.counted[name] = to_utf8(text.trimmed());
            typing_.start();
        });
        connect(line, &QLineEdit::editingFinished, this, &CallPage::keep);
        connect(line, &QLineEdit::returnPressed, this, [this] { focusNextChild(); });
    }
    count_grid_->setColumnStretch(2, 1);
}

void CallPage::fill_words() {
    const QScopedValueRollback guard(filling_, true);
    const auto fill = [](QLineEdit* line, const std::map<std::string, std::string>& from,
                         const std::string& key) {
        const auto found = from.find(key);
        const QString text = found == from.end() ? QString() : to_text(found->second);
        if (line->text() != text) line->setText(text);
    };
    for (const auto& [question, line] : lines_) {
        fill(line, form_.answers, question);
        const auto last = asks_.last_answers.find(question);
        line->setPlaceholderText(
            last == asks_.last_answers.end() ? QString() : tr("last time: %1").arg(to_text(last->second)));
    }
    for (const auto& [name, line] : counts_) {
        fill(line, form_.counted, name);
        const auto before = form_.counted_before.find(name);
        line->setPlaceholderText(
            before == form_.counted_before.end() ? QString() : tr("was %1").arg(to_text(before->second)));
    }
    if (own_words_->toPlainText() != to_text(form_.own_words))
        own_words_->setPlainText(to_text(form_.own_words));
    if (to_utf8(next_->typed().trimmed()) != form_.next_on) next_->set_typed(to_text(form_.next_on));
}

void CallPage::show_asks() {
    strip_->set_days(asks_.days, form_.days);
    strip_words_->setText(strip_->summary());
    show_scores(asks_.symptoms, *symptom_grid_, false, symptoms_);
    show_scores(function_questions(), *function_grid_, true, functions_);
    questions_->set_questions(asks_.dangers, form_.answers);
    show_counts();
    fill_words();
    order_focus();
    tell_open();
}

/// Tab and the keys that answer go down the page in the order of the talk.
void CallPage::order_focus() {
    // The page hands its focus to the strip: what stands above it is met after it, or never.
    std::vector<QWidget*> order{strip_};
    for (const char* name : {"planned", "diary", "nobody", "anew"})
        order.push_back(findChild<QPushButton*>(QLatin1String(name)));
    for (QWidget* each : older_->findChildren<QPushButton*>()) order.push_back(each);
    for (QWidget* each : danger_->findChildren<QWidget*>())
        if (each->focusPolicy() & Qt::TabFocus) order.push_back(each);
    order.insert(order.end(), symptoms_.begin(), symptoms_.end());
    order.push_back(lines_["sleep"]);
    for (QWidget* row : questions_->rows()) order.push_back(row);
    order.insert(order.end(), functions_.begin(), functions_.end());
    for (const char* line : {"supports", "meals and movement", "substances", "goals"})
        order.push_back(lines_[line]);
    for (const auto& [name, line] : counts_) order.push_back(line);
    order.insert(order.end(), {own_words_, next_});
    for (std::size_t at = 1; at < order.size(); ++at) setTabOrder(order[at - 1], order[at]);
}

void CallPage::tell_open() {
    const int open = static_cast<int>(unanswered(form_, asks_).size());
    open_->setText(open == 0   ? tr("All asked.")
                   : open == 1 ? tr("1 question is not asked yet.")
                               : tr("%1 questions are not asked yet.").arg(open));
    open_->set_tone(open == 0 ? Tone::planned : Tone::presses);
}

}  // namespace evenfall::ui
