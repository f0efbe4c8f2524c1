// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCalendarWidget>
#include <QLocale>
#include <QMenu>
#include <QShortcut>
#include <QWidgetAction>

#include "controls/typed_field.h"
#include "texts/render.h"
#include "theme/icons.h"

namespace evenfall::ui {
namespace {

/// "8", "8:00" and "0800" as "08:00"; anything else as it is, for the parser to judge.
std::string spelled_out(const QString& typed) {
    QString text = typed.trimmed();
    const bool digits = !text.isEmpty() &&
                        std::all_of(text.begin(), text.end(), [](QChar c) { return c >= u'0' && c <= u'9'; });
    if (digits && text.size() <= 2) text = text.rightJustified(2, u'0') + QStringLiteral(":00");
    if (digits && text.size() == 4) text.insert(2, u':');
    if (text.size() == 4 && text[1] == u':') text.prepend(u'0');
    return to_utf8(text);
}

}  // namespace

ClockEdit::ClockEdit(const Texts& texts, const QString& name, QWidget* parent)
    : TypedField(texts, tr("%1, hours and minutes").arg(name), parent) {
    edit()->setPlaceholderText(tr("08:00"));
    connect(this, &TypedField::committed, this, [this] {
        if (const auto at = time(); at && typed() != text_of(*at)) set_typed(text_of(*at));
    });
}

std::optional<ClockTime> ClockEdit::time() const {
    const auto read = parse_clock(spelled_out(typed()), {});
    return read ? std::optional<ClockTime>(*read) : std::nullopt;
}

void ClockEdit::set_time(std::optional<ClockTime> time) {
    set_typed(time ? text_of(*time) : QString());
}

Result<QString> ClockEdit::read(const QString& text) const {
    const auto at = parse_clock(spelled_out(text), {});
    if (!at) return at.faults();
    return text == text_of(*at) ? QString() : tr("= %1").arg(text_of(*at));
}

DayEdit::DayEdit(const Texts& texts, const QString& name, QWidget* parent)
    : TypedField(texts, tr("%1, year-month-day").arg(name), parent) {
    edit()->setPlaceholderText(tr("YYYY-MM-DD"));
    auto* open =
        edit()->addAction(icon(QStringLiteral("calendar"), Tone::soft_ink), QLineEdit::LeadingPosition);
    open->setText(tr("%1: pick from a calendar").arg(name));
    open->setToolTip(tr("Pick from a calendar (Alt+Down)"));
    connect(open, &QAction::triggered, this, &DayEdit::pick);
    auto* key = new QShortcut(QKeySequence(Qt::ALT | Qt::Key_Down), edit());
    key->setContext(Qt::WidgetShortcut);
    connect(key, &QShortcut::activated, this, &DayEdit::pick);
    for (QObject* button : edit()->children())
        if (auto* widget = qobject_cast<QWidget*>(button);
            widget && widget->inherits("QLineEditIconButton")) {
            widget->setAccessibleName(open->text());
            widget->setFocusPolicy(Qt::NoFocus);  // Alt+Down does the same from the field itself
        }
}

std::optional<Day> DayEdit::day() const {
    const auto read = parse_day(to_utf8(typed().trimmed()), {});
    return read ? std::optional<Day>(*read) : std::nullopt;
}

void DayEdit::set_day(std::optional<Day> day) {
    set_typed(day ? to_text(print_day(*day)) : QString());
}

void DayEdit::pick() {
    QMenu menu(this);
    auto* calendar = new QCalendarWidget(&menu);
    calendar->setAccessibleName(edit()->accessibleName());
    calendar->setLocale(QLocale(QLocale::English, QLocale::UnitedKingdom));
    calendar->setFirstDayOfWeek(Qt::Monday);
    calendar->setVerticalHeaderFormat(QCalendarWidget::NoVerticalHeader);
    if (const auto now = day()) calendar->setSelectedDate(to_qdate(*now));
    auto* holder = new QWidgetAction(&menu);
    holder->setDefaultWidget(calendar);
    menu.addAction(holder);
    connect(calendar, &QCalendarWidget::activated, this, [this, &menu](const QDate& date) {
        set_day(from_qdate(date));
        menu.close();
        emit committed();
    });
    connect(calendar, &QCalendarWidget::clicked, calendar, &QCalendarWidget::activated);
    menu.exec(edit()->mapToGlobal(QPoint(0, edit()->height())));
    edit()->setFocus();
}

Result<QString> DayEdit::read(const QString& text) const {
    const auto day = parse_day(to_utf8(text), {});
    if (!day) return day.faults();
    return text_with_weekday(*day);
}

}  // namespace evenfall::ui
