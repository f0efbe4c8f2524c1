// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPaintEngine>
#include <QPaintEvent>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

#include "course/day_words.h"
#include "diary/days.h"
#include "diary/diary_view.h"
#include "drawing/hatch.h"
#include "theme/numerals.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

// How the diary is painted: the rows in sight, then the header over them.

namespace evenfall::ui {
namespace {

void draw_score(QPainter& painter, const QRectF& cell, int severity) {
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF box = cell.adjusted(1, 1, -1, -1);
    painter.setPen(Qt::NoPen);
    painter.setBrush(symptom_shade(severity));
    painter.drawRoundedRect(box, 3, 3);
    painter.setPen(symptom_numeral(severity));
    draw_tabular(painter, box, Qt::AlignCenter, QString::number(severity));
}

constexpr double kRow = 26;
constexpr int kHours = 24;
constexpr double kMarkBox = 16;  // a mark with the room for its edges

QString hour_label(int hour) {
    return QStringLiteral("%1:00").arg(hour % 24, 2, 10, QLatin1Char('0'));
}

}  // namespace

void DiaryView::renew_stamps(const QPainter& painter) {
    // The device may be a picture of another scale than the screen's.
    const double ratio = painter.deviceTransform().m11();
    const QFont font = type(Type::note);
    const bool same = stamps_.cell == cell_ && stamps_.ratio == ratio && stamps_.theme == theme_in_force() &&
                      stamps_.font == font;
    if (!same) stamps_ = {cell_, ratio, theme_in_force(), font, {}, {}};
}

template <class Draw>
void DiaryView::put_stamp(QPainter& painter, QPixmap& stamp, const QRectF& box, Draw draw) {
    if (painter.paintEngine()->type() != QPaintEngine::Raster) {  // lines stay lines in a vector picture
        painter.save();
        draw(painter, box);
        return painter.restore();
    }
    if (stamp.isNull()) {
        stamp = QPixmap((box.size() * stamps_.ratio).toSize());
        stamp.setDevicePixelRatio(stamps_.ratio);
        stamp.fill(Qt::transparent);
        QPainter once(&stamp);
        once.setFont(stamps_.font);
        draw(once, QRectF({0, 0}, box.size()));
    }
    painter.drawPixmap(box.topLeft(), stamp);
}

void DiaryView::paintEvent(QPaintEvent* event) {
    QPainter painter(viewport());
    painter.fillRect(viewport()->rect(), tone(Tone::card));
    if (sheet_.is_empty()) return;
    renew_stamps(painter);
    const double top = std::max<double>(event->rect().top(), header_height()) - header_height() +
                       verticalScrollBar()->value();
    const auto last_row = static_cast<int>(sheet_.rows.size()) - 1;
    const int first = std::clamp(static_cast<int>(top / kRow), 0, last_row);
    const int last = std::clamp(
        static_cast<int>((event->rect().bottom() - header_height() + verticalScrollBar()->value()) / kRow), 0,
        last_row);
    painter.setFont(type(Type::note));
    for (int from_top = last; from_top >= first; --from_top) paint_row(painter, row_at(from_top));
    if (chosen_ && sheet_.row_of(chosen_->day) && hasFocus())
        draw_focus_ring(painter, spot_rect(*chosen_).adjusted(1, 1, -1, -1));
    paint_header(painter);
}

void DiaryView::paint_header(QPainter& painter) {
    const double height = header_height();
    painter.fillRect(QRectF(0, 0, viewport()->width(), height), tone(Tone::card));
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::soft_ink));
    const int begins = sheet_.begins.minutes / 60;
    for (int hour = 0; hour <= kHours; hour += 4) {
        const QString label = hour_label(begins + hour);
        const double width = tabular_width(painter.font(), label);
        const double left = std::min(x_of(hour * 60) - width / 2, viewport()->width() - width - 1);
        draw_tabular(painter, QRectF(left, height - 22, width, 18), Qt::AlignHCenter, label);
    }
    QString group;
    for (std::size_t i = 0; i < sheet_.items.size(); ++i) {
        const double x = cell_x(i);
        if (sheet_.items[i].group != group) {
            group = sheet_.items[i].group;
            painter.setPen(tone(Tone::soft_ink));
            painter.drawText(QRectF(x + 2, 2, 120, 18), Qt::AlignLeft | Qt::AlignVCenter, group);
        }
        painter.save();
        painter.translate(x + cell_ / 2, height - 6);
        painter.rotate(-90);
        painter.setPen(tone(Tone::symptom));
        painter.drawText(QRectF(0, -10, height - 28, 20), Qt::AlignLeft | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(sheet_.items[i].name, Qt::ElideRight,
                                                          static_cast<int>(height - 28)));
        painter.restore();
    }
    if (!sheet_.items.empty()) {
        painter.setPen(tone(Tone::symptom));
        painter.drawText(QRectF(burden_x(0) - 12, height - 40, burden_x(10) - burden_x(0) + 24, 18),
                         Qt::AlignCenter, tr("Burden"));
        painter.setPen(tone(Tone::soft_ink));
        for (const int mark : {0, 5, 10})
            draw_tabular(painter, QRectF(burden_x(mark) - 12, height - 22, 24, 18), Qt::AlignCenter,
                         QString::number(mark));
    }
    painter.setPen(QPen(tone(Tone::line), structure_line()));
    painter.drawLine(QPointF(0, height - 0.5), QPointF(viewport()->width(), height - 0.5));
}

void DiaryView::paint_row(QPainter& painter, std::size_t row) {
    const double y = y_of(row);
    const DayRow& day = sheet_.rows[row];
    if (chosen_ && chosen_->day == day.day)
        painter.fillRect(QRectF(0, y, viewport()->width(), kRow), tone(Tone::selected));
    paint_bands(painter, day, y);
    painter.setPen(QPen(tone(Tone::line), 0));  // a hairline in every theme: the marks carry the meaning
    for (int hour = 0; hour <= kHours; hour += 4)
        painter.drawLine(QPointF(x_of(hour * 60), y), QPointF(x_of(hour * 60), y + kRow));
    painter.drawLine(QPointF(left_, y + kRow - 0.5), QPointF(right_, y + kRow - 0.5));
    painter.setPen(QPen(tone(Tone::planned), structure_line()));
    for (const DoseTime& dose : day.intended) {
        const double x = x_of(minutes_into_day(dose.at, sheet_.begins));
        painter.drawLine(QPointF(x, y), QPointF(x, y + kRow));
    }
    if (day.known == DayKnown::unknown)
        hatch(painter, QRectF(left_ + 1, y + 4, right_ - left_ - 2, kRow - 8), tone(Tone::outlook));
    paint_day_name(painter, row, y);
    paint_doses(painter, day, y);
    paint_scores(painter, row, y);
    if (!sheet_.items.empty()) paint_burden(painter, row, y);
    paint_mark(painter, day.day, y);
    if (chosen_ && chosen_->day == day.day && theme_in_force() == ThemeKind::contrast) {
        painter.setPen(QPen(tone(Tone::planned), 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(0.5, y + 0.5, viewport()->width() - 1, kRow - 2));
    }
    if (chosen_ && chosen_->day == day.day && chosen_->kind != DiarySpot::Kind::day) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(tone(Tone::planned), data_line()));
        painter.drawRoundedRect(spot_rect(*chosen_).adjusted(1, 1, -1, -1), 4, 4);
    }
}

void DiaryView::paint_day_name(QPainter& painter, std::size_t row, double y) {
    const Day day = sheet_.rows[row].day;
    const auto date = calendar(day);
    const bool newest = row + 1 == sheet_.rows.size();
    // The year is told where it begins and where the list begins.
    const bool with_year =
        (date.month() == std::chrono::January && date.day() == std::chrono::day(1)) || newest;
    painter.setPen(weekday_from_monday(day) >= 5 ? tone(Tone::soft_ink) : tone(Tone::ink));
    draw_tabular(painter, QRectF(2, y, 100, kRow), Qt::AlignLeft | Qt::AlignVCenter,
                 with_year ? full_day(day) : short_day(day));
}

void DiaryView::paint_bands(QPainter& painter, const DayRow& row, double y) {
    for (const DoseTime& dose : row.intended) {
        const int at = minutes_into_day(dose.at, sheet_.begins);
        const double from = std::max(left_, x_of(at - sheet_.tolerance_minutes));
        const double to = std::min(right_, x_of(at + sheet_.tolerance_minutes));
        painter.fillRect(QRectF(from, y, to - from, kRow), tone(Tone::planned_fill));
    }
}

void DiaryView::paint_doses(QPainter& painter, const DayRow& row, double y) {
    const auto put = [&](double x, DoseMark mark) {
        put_stamp(painter, stamps_.marks[mark],
                  QRectF(std::round(x - kMarkBox / 2), y + (kRow - kMarkBox) / 2, kMarkBox, kMarkBox),
                  [mark](QPainter& on, const QRectF& box) { draw_mark(on, box.center(), mark); });
    };
    for (const auto missed : row.missed)
        put(x_of(minutes_into_day(row.intended[missed].at, sheet_.begins)), DoseMark::missed);
    for (const RowEntry& entry : row.entries) {
        const Intake& intake = sheet_.diary.intake[entry.intake];
        const double x = x_of(minutes_into_day(clock_of(intake.taken_at), sheet_.begins));
        put(x, mark_of(entry.match));
        if (!entry.other_amount && entry.match != EntryMatch::slip && entry.match != EntryMatch::extra &&
            entry.match != EntryMatch::unmatched)
            continue;
        // An amount that is not the intended one, or that nothing was intended for, is said in numerals.
        painter.setPen(tone(entry.match == EntryMatch::unmatched ? Tone::soft_ink : Tone::presses));
        const QString amount = amount_digits(intake.amount);
        const double width = tabular_width(painter.font(), amount);
        const bool fits = x + 9 + width < right_;
        draw_tabular(painter, QRectF(fits ? x + 9 : x - 9 - width, y, width, kRow),
                     Qt::AlignLeft | Qt::AlignVCenter, amount);
    }
    if (row.known != DayKnown::running) return;
    const double now = x_of(minutes_into_day(clock_of(sheet_.as_of), sheet_.begins));
    painter.setPen(QPen(tone(Tone::ink), data_line()));
    painter.drawLine(QPointF(now, y + 2), QPointF(now, y + kRow - 2));
}

void DiaryView::paint_scores(QPainter& painter, std::size_t row, double y) {
    const auto& scores = sheet_.scores[row];
    for (std::size_t i = 0; i < scores.size(); ++i) {
        if (scores[i].worst < 0) continue;
        const int severity = std::min(scores[i].worst, 10);
        put_stamp(painter, stamps_.scores[static_cast<std::size_t>(severity)],
                  QRectF(std::round(cell_x(i)), y, cell_, kRow),
                  [severity](QPainter& on, const QRectF& cell) { draw_score(on, cell, severity); });
    }
}

/// The day's part of the line: its point, and half of the way to the days before and after.
void DiaryView::paint_burden(QPainter& painter, std::size_t row, double y) {
    painter.setPen(QPen(tone(Tone::line), 0));
    for (const int mark : {0, 5, 10})
        painter.drawLine(QPointF(burden_x(mark), y), QPointF(burden_x(mark), y + kRow));
    if (sheet_.burden[row] < 0) return;
    const QPointF point(burden_x(sheet_.burden[row]), y + kRow / 2);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(tone(Tone::symptom), data_line()));
    const auto half_way = [&](std::size_t to, double edge) {
        if (sheet_.burden[to] >= 0)
            painter.drawLine(point, QPointF((point.x() + burden_x(sheet_.burden[to])) / 2, edge));
    };
    if (row > 0) half_way(row - 1, y + kRow);  // the day before stands below
    if (row + 1 < sheet_.burden.size()) half_way(row + 1, y);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tone(Tone::symptom));
    painter.drawEllipse(point, 2.5, 2.5);
    painter.restore();
}

void DiaryView::paint_mark(QPainter& painter, Day day, double y) {
    const auto mark = sheet_.marks.find(day);
    if (mark == sheet_.marks.end()) return;
    painter.setPen(QPen(tone(Tone::planned), data_line()));
    painter.drawLine(QPointF(0, y + kRow - 1), QPointF(right_, y + kRow - 1));
    const QFontMetricsF metrics(painter.font());
    const double width = metrics.horizontalAdvance(mark->second) + 10;
    const QRectF box(right_ - width, y + kRow - 17, width, 16);
    painter.fillRect(box, tone(Tone::card));
    painter.setPen(tone(Tone::planned));
    painter.drawText(box, Qt::AlignCenter, mark->second);
}

}  // namespace evenfall::ui
