// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/diary_words.h"

#include <QCoreApplication>
#include <cmath>

#include "course/day_words.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(DiaryWords)
};

QString match_words(const Sheet& sheet, const DayRow& row, const RowEntry& entry, const Texts& texts) {
    QStringList words{to_text(texts.text(mark_text(mark_of(entry.match))))};
    const Intake& intake = sheet.diary.intake[entry.intake];
    if (entry.intended) {
        const DoseTime& meant = row.intended[*entry.intended];
        if (entry.minutes_late > 0)
            words << Say::tr("%1 min after the intended %2").arg(entry.minutes_late).arg(text_of(meant.at));
        if (entry.minutes_late < 0)
            words << Say::tr("%1 min before the intended %2").arg(-entry.minutes_late).arg(text_of(meant.at));
        if (entry.minutes_late == 0) words << Say::tr("at the intended %1").arg(text_of(meant.at));
        if (entry.other_amount) words << Say::tr("%1 was intended").arg(text_of(meant.amount));
    }
    if (intake.why != TakenWhy::unsaid) words << Say::tr("taken: %1").arg(to_text(word(intake.why)));
    if (!intake.note.empty()) words << Say::tr("note: “%1”").arg(to_text(intake.note));
    return words.join(QStringLiteral("; "));
}

QString totals(const DayRow& row) {
    const int taken = static_cast<int>(row.entries.size());
    if (row.intended.empty()) return Say::tr("Doses written down: %1").arg(taken);
    return Say::tr("Doses written down: %1; intended: %2; missed: %3")
        .arg(taken)
        .arg(row.intended.size())
        .arg(row.missed.size());
}

QString day_sentence(const Sheet& sheet, std::size_t at, const Texts& texts) {
    const DayRow& row = sheet.rows[at];
    if (row.known == DayKnown::unknown) return to_text(texts.text("diary-day-unknown"));
    QString says = totals(row);
    if (row.known == DayKnown::running) says = Say::tr("%1 (not over yet)").arg(says);
    const QString symptoms = symptoms_of_day(sheet, at);
    return symptoms.isEmpty() ? says : Say::tr("%1. %2").arg(says, symptoms);
}

QString score_sentence(const Sheet& sheet, const DayRow& row, const SheetItem& item) {
    QStringList ratings;
    for (const auto at : row.ratings)
        if (sheet.diary.ratings[at].item == item.item)
            ratings << Say::tr("%1 at %2")
                           .arg(sheet.diary.ratings[at].severity)
                           .arg(text_of(clock_of(sheet.diary.ratings[at].rated_at)));
    return Say::tr("%1, 0 to 10: %2").arg(item.name, ratings.join(QStringLiteral(", ")));
}

}  // namespace

QString entry_words(const Intake& intake) {
    return Say::tr("%1 %2 %3")
        .arg(text_of(clock_of(intake.taken_at)), to_text(intake.drug), text_of(intake.amount));
}

LaneItem explain_spot(const Sheet& sheet, const DiarySpot& spot, const Texts& texts) {
    LaneItem item;
    const auto at = sheet.row_of(spot.day);
    if (!at) return item;
    const DayRow& row = sheet.rows[*at];
    const QString day = full_day(spot.day);
    item.name = day;
    switch (spot.kind) {
        case DiarySpot::Kind::day:
            item.says = Say::tr("%1: %2.").arg(day, day_sentence(sheet, *at, texts));
            break;
        case DiarySpot::Kind::dose: {
            const RowEntry& entry = row.entries[spot.index];
            item.says = Say::tr("%1, %2. %3.")
                            .arg(day, entry_words(sheet.diary.intake[entry.intake]),
                                 match_words(sheet, row, entry, texts));
            break;
        }
        case DiarySpot::Kind::missed: {
            const DoseTime& meant = row.intended[spot.index];
            item.says = Say::tr("%1: %2 of %3 was intended at %4; no dose was written down for it.")
                            .arg(day, text_of(meant.amount), to_text(meant.drug), text_of(meant.at));
            break;
        }
        case DiarySpot::Kind::score:
            item.says = Say::tr("%1: %2.").arg(day, score_sentence(sheet, row, sheet.items[spot.index]));
            break;
    }
    item.because =
        Say::tr(
            "A diary day runs from %1 to %1 (rule diary-day). A dose within %2 minutes of its "
            "intended time is on "
            "time (rule late-dose). Entries and dose times are paired so that the minutes between "
            "them are least in all; "
            "a day with nothing written down is unknown, not missed. The burden of a day is the mean "
            "of its symptoms, each the mean of its ratings.")
            .arg(text_of(sheet.begins))
            .arg(sheet.tolerance_minutes);
    return item;
}

QString doses_of_day(const Sheet& sheet, std::size_t at, const Texts& texts) {
    const DayRow& row = sheet.rows[at];
    if (row.known == DayKnown::unknown) return to_text(texts.text("diary-day-unknown"));
    QStringList words;
    for (const RowEntry& entry : row.entries)
        words << Say::tr("%1 (%2)").arg(entry_words(sheet.diary.intake[entry.intake]),
                                        to_text(texts.text(mark_text(mark_of(entry.match)))).toLower());
    for (const auto missed : row.missed)
        words << Say::tr("%1 %2 %3 (missed)")
                     .arg(text_of(row.intended[missed].at), to_text(row.intended[missed].drug),
                          text_of(row.intended[missed].amount));
    return words.isEmpty() ? Say::tr("None written down") : words.join(QStringLiteral("; "));
}

QString symptoms_of_day(const Sheet& sheet, std::size_t at) {
    QStringList words;
    for (std::size_t i = 0; i < sheet.items.size(); ++i)
        if (sheet.scores[at][i].worst >= 0)
            words << QStringLiteral("%1 %2").arg(sheet.items[i].name).arg(sheet.scores[at][i].worst);
    if (sheet.burden[at] >= 0) words << Say::tr("burden %1").arg(sheet.burden[at], 0, 'f', 1);
    return words.join(QStringLiteral(", "));
}

}  // namespace evenfall::ui
