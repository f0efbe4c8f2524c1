// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/call_parts.h"

#include <QGridLayout>
#include <QObject>
#include <QVBoxLayout>
#include <QWidget>
#include <algorithm>

#include "controls/card.h"
#include "controls/label.h"
#include "controls/why.h"
#include "diary/score_cell.h"
#include "shell/workbench.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kColumns = 2;

/// The numeral of last time, where there is one.
QString last_time(const ScoreCell& cell, const CallAsks& asks, bool function) {
    if (function) {
        const auto said = asks.last_answers.find(cell.item());
        return said == asks.last_answers.end() ? QString()
                                               : QObject::tr("last time %1").arg(to_text(said->second));
    }
    const auto rated = asks.last_scores.find(cell.item());
    return rated == asks.last_scores.end() ? QString() : QObject::tr("last time %1").arg(rated->second);
}

QString days_ago(int days) {
    return days <= 0   ? QObject::tr("today")
           : days == 1 ? QObject::tr("yesterday")
                       : QObject::tr("%1 days ago").arg(days);
}

/// Attempts since the last call that reached nobody.
int attempts_since(const PatientRecord& record, const CallAsks& asks) {
    return static_cast<int>(std::ranges::count_if(record.attempts, [&](const auto& each) {
        return !asks.last_call || day_of(each.value.at) > *asks.last_call;
    }));
}

}  // namespace

Card* add_part(QVBoxLayout& column, const QString& title, const QString& note) {
    auto* card = new Card;
    card->body()->addWidget(new SectionHeader(title, note));
    column.addWidget(card);
    return card;
}

const std::vector<std::string>& function_questions() {
    static const std::vector<std::string> questions = {"work", "home", "company", "confidence"};
    return questions;
}

void lay_out_scores(QGridLayout& grid, const std::vector<ScoreCell*>& cells, const CallAsks& asks,
                    bool function) {
    grid.setHorizontalSpacing(kSpace3);
    grid.setVerticalSpacing(kSpace1);
    const int rows = (static_cast<int>(cells.size()) + kColumns - 1) / kColumns;
    for (int row = rows; row < grid.rowCount(); ++row) grid.setRowMinimumHeight(row, 0);
    for (std::size_t at = 0; at < cells.size(); ++at) {
        const int column = static_cast<int>(at) / std::max(rows, 1);
        const int row = static_cast<int>(at) % std::max(rows, 1);
        grid.addWidget(cells[at], row, column * 2);
        grid.setRowMinimumHeight(row, kTarget);
        grid.addWidget(new Label(last_time(*cells[at], asks, function), Type::note, Tone::soft_ink), row,
                       column * 2 + 1);
        grid.setColumnStretch(column * 2, 2);
        grid.setColumnStretch(column * 2 + 1, 1);
    }
}

QString call_head_words(const PatientRecord& record, const CallAsks& asks, Day today) {
    QStringList words;
    if (record.supports) {
        if (!record.supports->value.safe_times.empty())
            words << QObject::tr("Safe times: %1").arg(to_text(record.supports->value.safe_times));
        QStringList others;
        for (const Supporter& each : record.supports->value.people)
            if (each.may_be_contacted && !each.phone.empty())
                others << QObject::tr("%1 (%2) %3")
                              .arg(to_text(each.name), to_text(each.relation), to_text(each.phone));
        if (!others.isEmpty())
            words << QObject::tr("May be called too: %1").arg(others.join(QStringLiteral(", ")));
    }
    words << (asks.last_call ? QObject::tr("Last call: %1, %2")
                                   .arg(text_with_weekday(*asks.last_call, today),
                                        days_ago(static_cast<int>((today - *asks.last_call).count())))
                             : QObject::tr("No call is recorded yet"));
    if (const int attempts = attempts_since(record, asks); attempts > 0)
        words << QObject::tr("Calls without an answer since then: %1").arg(attempts);
    return words.join(QStringLiteral(" · "));
}

void show_asked_back(Card& card, const Workbench& workbench, const std::vector<Flag>& flags, int open) {
    clear_layout(*card.body());
    if (open > 0) {
        auto* label = new Label(
            open == 1
                ? QObject::tr("1 question of those that are never left out has not been asked. Not asked "
                              "is not a no.")
                : QObject::tr("%1 questions of those that are never left out have not been asked. Not "
                              "asked is not a no.")
                      .arg(open),
            Type::strong, Tone::presses);
        card.body()->addWidget(label->wrapped());
    }
    for (const Flag& flag : flags) card.body()->addWidget(new FlagRow(workbench, flag, Weight::presses));
    auto* again = new Label(QObject::tr("Ask now, or press Ctrl+Enter once more to save it as it is."));
    card.body()->addWidget(again->wrapped());
    card.show();
}

}  // namespace evenfall::ui
