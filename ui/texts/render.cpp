// SPDX-License-Identifier: GPL-3.0-or-later
#include "texts/render.h"

#include <QCoreApplication>
#include <QLocale>

namespace evenfall::ui {
namespace {

/// Names of months and weekdays in the language of the window; digits never depend on the machine's settings.
QLocale names() {
    return QLocale::c();
}

}  // namespace

QString to_text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

std::string to_utf8(const QString& text) {
    return text.toStdString();
}

QString text_of(Dose dose) {
    return to_text(print_dose(dose));
}

QString text_of(ClockTime at) {
    return to_text(print_clock(at));
}

QString text_of(Day day) {
    return names().toString(to_qdate(day), QStringLiteral("d MMM yyyy"));
}

QString text_with_weekday(Day day) {
    return names().toString(to_qdate(day), QStringLiteral("ddd d MMM yyyy"));
}

QString text_with_weekday(Day day, Day today) {
    const bool same_year = calendar(day).year() == calendar(today).year();
    return names().toString(to_qdate(day),
                            same_year ? QStringLiteral("ddd d MMM") : QStringLiteral("ddd d MMM yyyy"));
}

QString text_of(Share share) {
    return QCoreApplication::translate("render", "%1 %").arg(to_text(print_percent(share)));
}

QString text_of_minute(Instant at) {
    const QString whole = to_text(print_instant(at));
    return QCoreApplication::translate("render", "%1 %2 UTC").arg(whole.left(10), whole.mid(11, 5));
}

QDate to_qdate(Day day) {
    const auto date = calendar(day);
    return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
            static_cast<int>(static_cast<unsigned>(date.day()))};
}

Day from_qdate(const QDate& date) {
    return day_at(date.year(), static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

QTime to_qtime(ClockTime at) {
    return QTime(at.minutes / 60, at.minutes % 60);
}

QString sentence_case(QString text) {
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

}  // namespace evenfall::ui
