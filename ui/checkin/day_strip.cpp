// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/day_strip.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "texts/render.h"
#include "theme/numerals.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr qreal kWidest = 46;
constexpr qreal kHeight = 52;

}  // namespace

DayStrip::DayStrip(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    tell_name();
}

void DayStrip::set_days(std::vector<AskedDay> days, const std::map<Day, CallDay>& said) {
    days_ = std::move(days);
    said_ = said;
    at_ = days_.empty() ? 0 : std::min(at_, days_.size() - 1);
    tell_name();
    update();
}

QSize DayStrip::sizeHint() const {
    return {static_cast<int>(kWidest) * static_cast<int>(std::max<std::size_t>(days_.size(), 1)),
            static_cast<int>(kHeight) + 2};
}

CallDay DayStrip::said_of(const AskedDay& day) const {
    const auto found = said_.find(day.day);
    return found == said_.end() ? CallDay::unsaid : found->second;
}

QRectF DayStrip::cell(std::size_t at) const {
    const qreal wide =
        std::min(kWidest, width() / static_cast<qreal>(std::max<std::size_t>(days_.size(), 1)));
    return QRectF(static_cast<qreal>(at) * wide, 1, wide, kHeight).adjusted(1, 0, -2, 0);
}

QString DayStrip::summary() const {
    int diary = 0, off = 0, planned = 0, other = 0, open = 0;
    for (const AskedDay& day : days_) {
        const CallDay said = said_of(day);
        ++(day.off_plan                  ? off
           : day.in_diary                ? diary
           : said == CallDay::as_planned ? planned
           : said == CallDay::unsaid     ? open
                                         : other);
    }
    QStringList parts;
    if (diary > 0) parts << tr("%1 in the diary").arg(diary);
    if (off > 0) parts << tr("%1 in the diary and off the plan").arg(off);
    if (planned > 0) parts << tr("%1 as planned").arg(planned);
    if (other > 0) parts << tr("%1 not as planned").arg(other);
    if (open > 0) parts << tr("%1 not said yet").arg(open);
    return parts.isEmpty() ? tr("No day to ask about") : parts.join(QStringLiteral(", "));
}

void DayStrip::tell_name() {
    QString name = tr("Days since the last call: %1").arg(summary());
    if (at_ < days_.size()) {
        const AskedDay& day = days_[at_];
        name += tr(". %1: %2")
                    .arg(text_with_weekday(day.day), day.off_plan   ? tr("in the diary, off the plan")
                                                     : day.in_diary ? tr("in the diary")
                                                                    : to_text(word(said_of(day))));
    }
    setAccessibleName(name);
    QAccessibleEvent told(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&told);
}

void DayStrip::all_as_planned() {
    for (const AskedDay& day : days_)
        if (!day.in_diary && said_of(day) == CallDay::unsaid) said_[day.day] = CallDay::as_planned;
    tell_name();
    update();
    emit changed();
    emit finished();
}

void DayStrip::say(CallDay said) {
    if (at_ >= days_.size() || days_[at_].in_diary) return;
    if (said == CallDay::unsaid)
        said_.erase(days_[at_].day);
    else
        said_[days_[at_].day] = said;
    if (said != CallDay::unsaid && at_ + 1 < days_.size()) ++at_;
    tell_name();
    update();
    emit changed();
}

void DayStrip::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    for (std::size_t i = 0; i < days_.size(); ++i) {
        const AskedDay& day = days_[i];
        const CallDay said = said_of(day);
        const QRectF where = cell(i);
        const bool off = day.off_plan || (!day.in_diary && said == CallDay::not_as_planned);
        const bool done = !off && (day.in_diary || said == CallDay::as_planned);
        draw_box(painter, where,
                 tone(off    ? Tone::presses_fill
                      : done ? Tone::planned_fill
                             : Tone::card),
                 tone(off ? Tone::presses : Tone::edge), structure_line(), kRadius);
        painter.setFont(type(Type::note));
        painter.setPen(tone(Tone::soft_ink));
        painter.drawText(where.adjusted(0, 3, 0, 0), Qt::AlignHCenter | Qt::AlignTop,
                         text_with_weekday(day.day).left(3));
        painter.setFont(type(Type::strong));
        painter.setPen(tone(off ? Tone::presses : Tone::ink));
        draw_tabular(painter, where, Qt::AlignCenter,
                     QString::number(static_cast<unsigned>(std::chrono::year_month_day(day.day).day())));
        painter.setFont(type(Type::note));
        painter.setPen(tone(off ? Tone::presses : Tone::planned));
        painter.drawText(where.adjusted(0, 0, 0, -2), Qt::AlignHCenter | Qt::AlignBottom,
                         day.off_plan                  ? tr("off")
                         : day.in_diary                ? tr("diary")
                         : said == CallDay::as_planned ? QStringLiteral("✓")
                         : off                         ? tr("not")
                                                       : QStringLiteral("–"));
        if (hasFocus() && i == at_) draw_focus_ring(painter, where);
    }
}

void DayStrip::mousePressEvent(QMouseEvent* event) {
    for (std::size_t i = 0; i < days_.size(); ++i) {
        if (!cell(i).contains(event->position())) continue;
        at_ = i;
        const std::size_t stay = at_;
        say(said_of(days_[i]) == CallDay::as_planned ? CallDay::not_as_planned : CallDay::as_planned);
        at_ = stay;
        update();
    }
}

void DayStrip::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Right:
            at_ = days_.empty() ? 0 : std::min(at_ + 1, days_.size() - 1);
            break;
        case Qt::Key_Left:
            at_ = at_ == 0 ? 0 : at_ - 1;
            break;
        case Qt::Key_P:
            return all_as_planned();
        case Qt::Key_X:
            return say(CallDay::not_as_planned);
        case Qt::Key_Backspace:
        case Qt::Key_Delete:
            return say(CallDay::unsaid);
        case Qt::Key_Return:
        case Qt::Key_Enter:
            return emit finished();
        default:
            return QWidget::keyPressEvent(event);
    }
    tell_name();
    update();
}

}  // namespace evenfall::ui
