// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStyle>

#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

bool has(const QStyleOption& option, QStyle::StateFlag flag) {
    return option.state.testFlag(flag);
}

QString without_mnemonic(QString text) {
    return text.remove(QLatin1Char('&'));
}

}  // namespace

void draw_tab(QPainter& painter, const QStyleOptionTab& option) {
    const QRectF where = option.rect;
    const bool chosen = has(option, QStyle::State_Selected);
    if (chosen || has(option, QStyle::State_MouseOver)) {
        const QRectF under(where.left() + 8, where.bottom() - 3, where.width() - 16, 3);
        draw_box(painter, under, tone(chosen ? Tone::planned : Tone::line), {}, 0, 1.5);
    }
    if (has(option, QStyle::State_HasFocus) && chosen) draw_focus_ring(painter, where.adjusted(1, 3, -1, -5));
}

void draw_tab_words(QPainter& painter, const QStyleOptionTab& option) {
    const bool chosen = has(option, QStyle::State_Selected);
    painter.save();
    painter.setFont(type(chosen ? Type::strong : Type::text));
    painter.setPen(tone(!has(option, QStyle::State_Enabled) ? Tone::disabled_ink
                        : chosen                            ? Tone::ink
                                                            : Tone::soft_ink));
    painter.drawText(option.rect, Qt::AlignCenter, without_mnemonic(option.text));
    painter.restore();
}

void draw_row(QPainter& painter, const QStyleOptionViewItem& option) {
    if (option.backgroundBrush.style() != Qt::NoBrush) painter.fillRect(option.rect, option.backgroundBrush);
    if (has(option, QStyle::State_Selected)) {
        if (const bool list = option.viewItemPosition == QStyleOptionViewItem::OnlyOne ||
                              option.viewItemPosition == QStyleOptionViewItem::Invalid;
            list)
            draw_box(painter, option.rect, tone(Tone::selected), {}, 0, kRadius);
        else
            painter.fillRect(option.rect, tone(Tone::selected));
        if (theme_in_force() == ThemeKind::contrast) draw_focus_ring(painter, QRectF(option.rect));
    } else if (has(option, QStyle::State_MouseOver)) {
        painter.fillRect(option.rect, tone(Tone::sunken));
    }
}

void draw_header(QPainter& painter, const QStyleOptionHeader& option) {
    painter.fillRect(option.rect, tone(Tone::card));
    painter.fillRect(QRectF(option.rect.left(), option.rect.bottom() + 1 - structure_line(),
                            option.rect.width(), structure_line()),
                     tone(Tone::line));
}

void draw_header_words(QPainter& painter, const QStyleOptionHeader& option) {
    painter.save();
    QFont font = type(Type::note);
    font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    painter.setPen(tone(Tone::soft_ink));
    const QRect room = option.rect.adjusted(kSpace1, 0, -kSpace1, 0);
    painter.drawText(room, static_cast<int>(option.textAlignment) | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(option.text, Qt::ElideRight, room.width()));
    painter.restore();
}

void draw_scroll_bar(QPainter& painter, const QStyleOptionSlider& option, const QRectF& handle) {
    if (option.minimum == option.maximum) return;
    const bool near = has(option, QStyle::State_MouseOver) || has(option, QStyle::State_Sunken);
    const qreal inset = near ? 2 : 3;
    const bool lying = option.orientation == Qt::Horizontal;
    const QRectF shape =
        lying ? handle.adjusted(2, inset, -2, -inset) : handle.adjusted(inset, 2, -inset, -2);
    draw_box(painter, shape, tone(near ? Tone::soft_ink : Tone::edge), {}, 0, 4);
}

void draw_progress(QPainter& painter, const QStyleOptionProgressBar& option) {
    const QRectF where = option.rect;
    const QRectF groove(where.left(), where.center().y() - 3, where.width(), 6);
    draw_box(painter, groove, tone(Tone::sunken), tone(Tone::line), structure_line(), 3);
    const bool unknown = option.maximum <= option.minimum;
    const qreal part =
        unknown ? 0.35
                : static_cast<qreal>(option.progress - option.minimum) / (option.maximum - option.minimum);
    QRectF done = groove;
    done.setWidth(groove.width() * std::clamp(part, 0.0, 1.0));
    draw_box(painter, done, tone(Tone::planned), {}, 0, 3);
}

}  // namespace evenfall::ui
