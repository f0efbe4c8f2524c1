// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/day_words.h"

#include <QCoreApplication>
#include <QLocale>

#include "units/dose_text.h"

namespace evenfall::ui {
namespace {
struct Say {
    Q_DECLARE_TR_FUNCTIONS(DayWords)
};
}  // namespace

QString short_day(Day day) {
    return QLocale().toString(to_qdate(day), Say::tr("ddd d MMM", "a date without its year"));
}

QString full_day(Day day) {
    return QLocale().toString(to_qdate(day), Say::tr("ddd d MMM yyyy", "a date with its year"));
}

QString amount_digits(Dose dose) {
    const QString text = amount_text(dose);
    return text.left(text.indexOf(QLatin1Char(' ')));
}

QString amount_text(Dose dose) {
    return QString::fromStdString(print_dose(dose));
}

QString daily_text(Dose dose) {
    return Say::tr("%1 a day").arg(amount_text(dose));
}

QString capitalised(const QString& text) {
    return text.isEmpty() ? text : text.left(1).toUpper() + text.mid(1);
}

}  // namespace evenfall::ui
