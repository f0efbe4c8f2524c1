// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDate>
#include <QString>
#include <QTime>

#include "model/words.h"
#include "units/day.h"
#include "units/dose_text.h"

namespace evenfall::ui {

/// UTF-8 in and out.
QString to_text(const std::string& utf8);
std::string to_utf8(const QString& text);

/// Amounts and times as a person reads them.
QString text_of(Dose dose);          ///< "0.125 mg"
QString text_of(ClockTime at);       ///< "08:00"
QString text_of(Day day);            ///< "2 Apr 1968"
QString text_with_weekday(Day day);  ///< "Thu 26 Nov 2026"
QString text_with_weekday(Day day,
                          Day today);  ///< "Thu 26 Nov"; the year only where it is another than today's
QString text_of(Share share);          ///< "8 %", at most one decimal, "about" never: for showing only
QString text_of_minute(Instant at);    ///< "2026-12-01 08:05 UTC"

QDate to_qdate(Day day);
Day from_qdate(const QDate& date);
QTime to_qtime(ClockTime at);

/// The word of a value with its first letter large, as a label or a button has it.
template <Worded E>
QString sentence_word(E value) {
    QString text = to_text(word(value));
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}
QString sentence_case(QString text);

}  // namespace evenfall::ui
