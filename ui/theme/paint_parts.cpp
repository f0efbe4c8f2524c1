// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/paint_parts.h"

#include <QAbstractScrollArea>
#include <QWidget>
#include <algorithm>

#include "controls/buttons.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

bool has(const QStyleOption& option, QStyle::StateFlag flag) {
    return option.state.testFlag(flag);
}

bool enabled(const QStyleOption& option) {
    return has(option, QStyle::State_Enabled);
}

ButtonKind kind_of_button(const QWidget* widget) {
    return widget ? static_cast<ButtonKind>(widget->property("kind").toInt()) : ButtonKind::plain;
}

QColor primary_ground(const QStyleOption& option) {
    if (has(option, QStyle::State_Sunken)) return tone(Tone::planned).darker(120);
    return has(option, QStyle::State_MouseOver) ? tone(Tone::planned).lighter(112) : tone(Tone::planned);
}

QColor plain_ground(const QStyleOption& option) {
    if (has(option, QStyle::State_Sunken) || has(option, QStyle::State_On)) return tone(Tone::selected);
    return tone(has(option, QStyle::State_MouseOver) ? Tone::sunken : Tone::card);
}

}  // namespace

void draw_box(QPainter& painter, const QRectF& where, const QColor& fill, const QColor& line, qreal width,
              qreal radius) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(fill);
    painter.setPen(width > 0 ? QPen(line, width) : QPen(Qt::NoPen));
    const qreal inset = width / 2;
    painter.drawRoundedRect(where.adjusted(inset, inset, -inset, -inset), radius, radius);
    painter.restore();
}

void draw_focus_ring(QPainter& painter, const QRectF& where) {
    draw_box(painter, where, Qt::transparent, tone(Tone::focus), data_line(), kRadius);
}

void draw_chevron(QPainter& painter, const QRectF& where, Qt::ArrowType direction, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(where.center());
    painter.rotate(direction == Qt::UpArrow      ? 180
                   : direction == Qt::LeftArrow  ? 90
                   : direction == Qt::RightArrow ? -90
                                                 : 0);
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const QPointF points[] = {{-4, -2}, {0, 2}, {4, -2}};
    painter.drawPolyline(points, 3);
    painter.restore();
}

QColor button_ink(const QStyleOption& option, const QWidget* widget) {
    if (!enabled(option)) return tone(Tone::disabled_ink);
    switch (kind_of_button(widget)) {
        case ButtonKind::primary:
            return tone(Tone::on_planned);
        case ButtonKind::quiet:
            return tone(has(option, QStyle::State_MouseOver) ? Tone::planned : Tone::soft_ink);
        case ButtonKind::plain:
            break;
    }
    const QVariant own = widget ? widget->property("tone") : QVariant();
    return own.isValid() ? tone(static_cast<Tone>(own.toInt())) : tone(Tone::ink);
}

void draw_button(QPainter& painter, const QStyleOption& option, const QWidget* widget) {
    const QRectF where = option.rect;
    const ButtonKind kind = kind_of_button(widget);
    if (!enabled(option)) {
        // In high contrast every line is white: there the outline has to say that nothing happens.
        const Tone line = theme_in_force() == ThemeKind::contrast ? Tone::disabled_ink : Tone::line;
        if (kind != ButtonKind::quiet)
            draw_box(painter, where, tone(Tone::sunken), tone(line), structure_line(), kRadius);
    } else if (kind == ButtonKind::primary) {
        draw_box(painter, where, primary_ground(option), tone(Tone::planned), structure_line(), kRadius);
    } else if (kind == ButtonKind::plain) {
        const QColor line =
            widget && widget->property("tone").isValid() ? button_ink(option, widget) : tone(Tone::edge);
        draw_box(painter, where, plain_ground(option), line, structure_line(), kRadius);
    } else if (has(option, QStyle::State_MouseOver) || has(option, QStyle::State_Sunken)) {
        draw_box(painter, where, tone(Tone::sunken), {}, 0, kRadius);
    }
    if (!has(option, QStyle::State_HasFocus)) return;
    // On a filled button the ring would vanish: it stands inside, in the colour of the words.
    if (kind == ButtonKind::primary && enabled(option))
        draw_box(painter, where.adjusted(3, 3, -3, -3), Qt::transparent, tone(Tone::on_planned),
                 data_line() - 0.5, kRadius - 2);
    else
        draw_focus_ring(painter, where);
}

void draw_field(QPainter& painter, const QStyleOption& option, const QWidget* widget) {
    const bool wrong = widget && widget->property("wrong").toBool();
    const bool focus = has(option, QStyle::State_HasFocus);
    QColor line = tone(wrong ? Tone::danger : focus ? Tone::focus : Tone::edge);
    if (!enabled(option)) line = tone(Tone::line);
    draw_box(painter, option.rect, tone(enabled(option) ? Tone::card : Tone::sunken), line,
             focus || wrong ? data_line() : structure_line(), kRadius);
}

void draw_check_box(QPainter& painter, const QStyleOption& option) {
    const bool on = has(option, QStyle::State_On);
    const bool partly = has(option, QStyle::State_NoChange);
    const QRectF where = QRectF(option.rect).adjusted(1, 1, -1, -1);
    const QColor full = tone(enabled(option) ? Tone::planned : Tone::disabled_ink);
    draw_box(painter, where, on || partly ? full : tone(Tone::card), on || partly ? full : tone(Tone::edge),
             std::max(1.2, structure_line()), 4);
    if (!on && !partly) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(tone(Tone::on_planned), 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const auto at = [&where](qreal x, qreal y) {
        return QPointF(where.x() + where.width() * x, where.y() + where.height() * y);
    };
    const QPointF tick[] = {at(0.24, 0.53), at(0.43, 0.72), at(0.77, 0.30)};
    if (on)
        painter.drawPolyline(tick, 3);
    else
        painter.drawLine(at(0.25, 0.5), at(0.75, 0.5));
    painter.restore();
}

void draw_radio(QPainter& painter, const QStyleOption& option) {
    const bool on = has(option, QStyle::State_On);
    const QRectF where = QRectF(option.rect).adjusted(1, 1, -1, -1);
    const QColor full = tone(enabled(option) ? Tone::planned : Tone::disabled_ink);
    draw_box(painter, where, tone(Tone::card), on ? full : tone(Tone::edge), on ? 2 : 1.2, where.width() / 2);
    if (!on) return;
    const qreal inset = where.width() * 0.28;
    draw_box(painter, where.adjusted(inset, inset, -inset, -inset), full, {}, 0, where.width() / 2);
}

void draw_frame(QPainter& painter, const QStyleOption& option, const QWidget* widget) {
    const bool focus = widget && widget->hasFocus() && qobject_cast<const QAbstractScrollArea*>(widget);
    const bool wrong = widget && widget->property("wrong").toBool();
    const QColor line = tone(wrong ? Tone::danger : focus ? Tone::focus : Tone::line);
    const bool field = widget && widget->inherits("QPlainTextEdit");
    draw_box(painter, option.rect, Qt::transparent, field && !focus && !wrong ? tone(Tone::edge) : line,
             focus || wrong ? data_line() : structure_line(), kRadius);
}

}  // namespace evenfall::ui
