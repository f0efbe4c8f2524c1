// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <QPainterPath>
#include <algorithm>

#include "course/day_words.h"
#include "course/lanes.h"
#include "drawing/hatch.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kTop = 10, kBlock = 38;

bool is_agreed(Stretch::Kind kind) {
    return kind != Stretch::Kind::outlook && kind != Stretch::Kind::off;
}

bool is_over_cap(const Stretch& stretch) {
    return std::ranges::any_of(stretch.flags, [](const Flag& flag) { return flag.rule == "cut-over-cap"; });
}

/// A filled corner: the cut that leads to this step is over the cap.
void paint_over_cap(QPainter& painter, const QRectF& box) {
    constexpr double kCorner = 9;
    const double side = std::min(kCorner, box.width());
    QPainterPath corner(box.topLeft());
    corner.lineTo(box.left() + side, box.top());
    corner.lineTo(box.left(), box.top() + side);
    corner.closeSubpath();
    painter.fillPath(corner, tone(Tone::presses));
}

}  // namespace

StepsLane::StepsLane(const TimeAxis& axis, QWidget* parent)
    : Lane(tr("Steps"), tr("mg a day"), axis, parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void StepsLane::show_scene(const CourseScene& scene) {
    course_ = scene.course;
    set_note(scene.as_diazepam ? tr("as diazepam,\nmg a day") : tr("mg a day"));
    set_items(step_items(scene));
}

QRectF StepsLane::item_rect(std::size_t index) const {
    const QRectF all = columns(items()[index].from, items()[index].to);
    QRectF box(all.left() + 1, kTop, std::max(0.0, all.width() - 2), kBlock);
    // Today's block is wide enough for its amount.
    const double wanted = course_.current == index && box.width() > 0 ? today_width_ : 0;
    if (box.width() < wanted) box.adjust(-(wanted - box.width()) / 2, 0, (wanted - box.width()) / 2, 0);
    return box;
}

QString StepsLane::amount_of_block(std::size_t index) const {
    const Dose daily = course_.stretches[index].daily;
    return daily.is_zero() ? tr("OFF") : amount_digits(daily);
}

QFont StepsLane::block_font() const {
    QFont font = type(Type::strong);
    for (const double smaller : {1.0, 0.9, 0.82, 0.74}) {
        font = type(Type::strong);
        font.setPointSizeF(font.pointSizeF() * smaller);
        const QFontMetricsF metrics(font);
        bool fits = true;
        for (std::size_t i = 0; i < items().size() && fits; ++i) {
            const double width = item_rect(i).width();
            const bool whole = x(items()[i].from) >= plot().left() && x(items()[i].to) <= plot().right();
            fits =
                !whole || i == course_.current || metrics.horizontalAdvance(amount_of_block(i)) + 4 <= width;
        }
        if (fits) break;
    }
    return font;
}

void StepsLane::paint_lane(QPainter& painter) {
    const QFont font = block_font();
    today_width_ =
        course_.current ? QFontMetricsF(font).horizontalAdvance(amount_of_block(*course_.current)) + 10 : 0;
    for (std::size_t i = 0; i < items().size(); ++i)
        if (i != course_.current && axis().sees(items()[i].from, items()[i].to))
            paint_block(painter, i, font);
    // Today's block lies over its neighbours, so that its amount is always whole.
    if (course_.current && axis().sees(items()[*course_.current].from, items()[*course_.current].to))
        paint_block(painter, *course_.current, font);
    paint_agreed(painter);
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(-1, -1, 1, 1));
}

void StepsLane::paint_block(QPainter& painter, std::size_t index, const QFont& font) const {
    const Stretch& stretch = course_.stretches[index];
    const bool today = course_.current == index;
    const bool hold = stretch.kind == Stretch::Kind::hold;
    const bool outlook = !is_agreed(stretch.kind);
    const QString amount = amount_of_block(index);
    const double width = QFontMetricsF(font).horizontalAdvance(amount);
    QRectF box = item_rect(index).adjusted(0.5, 0.5, -0.5, -0.5);
    if (course_.current && !today) {
        // Beside today's block, not under it.
        const QRectF over = item_rect(*course_.current);
        if (index < *course_.current)
            box.setRight(std::min(box.right(), std::max(box.left(), over.left() - 1)));
        if (index > *course_.current && !over.isEmpty())
            box.setLeft(std::max(box.left(), std::min(box.right(), over.right() + 1)));
    }
    if (box.width() <= 0) return;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(tone(outlook ? Tone::outlook : Tone::planned), structure_line(),
                        hold ? Qt::DotLine : Qt::SolidLine));
    painter.setBrush(today ? tone(Tone::planned) : outlook ? tone(Tone::card) : tone(Tone::planned_fill));
    const double radius = std::min(4.0, box.width() / 3);
    painter.drawRoundedRect(box, radius, radius);
    if (outlook) hatch(painter, box.adjusted(1, 1, -1, -1), tone(Tone::outlook));
    if (is_over_cap(stretch)) paint_over_cap(painter, box);
    painter.setFont(font);
    if (width + 1 > box.width()) return paint_upright(painter, box, amount, outlook);
    if (outlook) {
        const QRectF behind(box.center().x() - width / 2 - 2, box.center().y() - 9, width + 4, 18);
        painter.fillRect(behind.intersected(box.adjusted(1, 1, -1, -1)), tone(Tone::card));
    }
    const bool word_fits =
        hold && QFontMetricsF(type(Type::note)).horizontalAdvance(tr("hold")) + 2 < box.width();
    painter.setPen(tone(today ? Tone::on_planned : outlook ? Tone::soft_ink : Tone::planned));
    painter.drawText(word_fits ? box.adjusted(0, 2, 0, -15) : box, Qt::AlignCenter, amount);
    if (!word_fits) return;
    painter.setFont(type(Type::note));
    painter.drawText(box.adjusted(0, 18, 0, -1), Qt::AlignCenter, tr("hold"));
}

/// The amount from bottom to top, in a block too narrow for it; in one that is narrower still it is told
/// beneath the lanes and in the table.
void StepsLane::paint_upright(QPainter& painter, const QRectF& box, const QString& amount,
                              bool outlook) const {
    const QFontMetricsF metrics(painter.font());
    if (box.width() < metrics.height() * 0.7) return;
    painter.save();
    painter.translate(box.center());
    painter.rotate(-90);
    const QRectF words(-box.height() / 2, -metrics.height() / 2, box.height(), metrics.height());
    const double width = metrics.horizontalAdvance(amount);
    if (outlook)
        painter.fillRect(QRectF(-width / 2 - 2, -metrics.height() * 0.38, width + 4, metrics.height() * 0.76),
                         tone(Tone::card));
    painter.setPen(tone(outlook ? Tone::soft_ink : Tone::planned));
    painter.drawText(words, Qt::AlignCenter, amount);
    painter.restore();
}

/// Under the blocks: through which day steps are signed, and from where nothing is agreed.
void StepsLane::paint_agreed(QPainter& painter) const {
    const QRectF all = plot();
    const double y = kTop + kBlock + 2;
    double outlook_from = all.right();
    for (const Stretch& stretch : course_.stretches)
        if (stretch.kind == Stretch::Kind::outlook) {
            outlook_from = std::max(all.left(), x(axis_day(stretch.from)));
            break;
        }
    painter.setFont(type(Type::note));
    const QFontMetricsF metrics(painter.font());
    const QString signed_text =
        course_.signed_through ? tr("signed through %1").arg(short_day(*course_.signed_through)) : QString();
    const QString outlook_text = tr("outlook: not yet agreed");
    const double signed_width = metrics.horizontalAdvance(signed_text);
    double free_from = all.left() + 6;
    if (!signed_text.isEmpty()) {
        const double end = x(axis_day(*course_.signed_through) + 1);
        const double left = beside_today(end - signed_width, signed_width);
        painter.setPen(tone(Tone::planned));
        painter.drawText(QRectF(left, y, signed_width + 2, 20), Qt::AlignLeft | Qt::AlignVCenter,
                         signed_text);
        free_from = left + signed_width + 12;
    }
    const double outlook_width = metrics.horizontalAdvance(outlook_text);
    const double left = beside_today(std::max(free_from, outlook_from), outlook_width);
    if (outlook_from >= all.right() || left < free_from) return;
    painter.setPen(tone(Tone::soft_ink));
    painter.drawText(QRectF(left, y, outlook_width + 2, 20), Qt::AlignLeft | Qt::AlignVCenter, outlook_text);
}

}  // namespace evenfall::ui
