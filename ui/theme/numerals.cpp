// SPDX-License-Identifier: GPL-3.0-or-later
#include "theme/numerals.h"

#include <QApplication>
#include <QFontMetricsF>
#include <algorithm>
#include <array>

#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// The widths of the ten digits in a font.
struct Digits {
    QFont font;
    std::array<qreal, 10> own{};
    qreal widest = 0;
};

/// Measuring shapes text: it is done once for a font, and columns of numbers are set in one or two.
const Digits& digits_of(const QFont& font) {
    constexpr std::size_t kFonts = 4;
    static auto* known = new std::array<Digits, kFonts>;  // outlives every font engine
    static std::size_t next = 0;
    for (const Digits& each : *known)
        if (each.widest > 0 && each.font == font) return each;
    Digits& fresh = (*known)[next++ % kFonts];
    fresh = {font, {}, 0};
    const QFontMetricsF metrics(font);
    for (std::size_t digit = 0; digit < fresh.own.size(); ++digit) {
        fresh.own[digit] = metrics.horizontalAdvance(QChar(static_cast<char16_t>(u'0' + digit)));
        fresh.widest = std::max(fresh.widest, fresh.own[digit]);
    }
    return fresh;
}

/// Calls `each(run, width, is_digit)` for every digit and every run of other characters, in order.
template <class Each>
void for_runs(const QFont& font, const QFontMetricsF& metrics, const QString& text, Each each) {
    const qreal digit = digits_of(font).widest;
    for (qsizetype at = 0; at < text.size();) {
        if (text[at].isDigit()) {
            each(text.mid(at, 1), digit, true);
            ++at;
            continue;
        }
        const qsizetype from = at;
        while (at < text.size() && !text[at].isDigit()) ++at;
        const QString run = text.mid(from, at - from);
        each(run, metrics.horizontalAdvance(run), false);
    }
}

}  // namespace

qreal tabular_width(const QFont& font, const QString& text) {
    qreal width = 0;
    for_runs(font, QFontMetricsF(font), text, [&width](const QString&, qreal run, bool) { width += run; });
    return width;
}

void draw_tabular(QPainter& painter, const QRectF& where, Qt::Alignment alignment, const QString& text) {
    const QFontMetricsF metrics(painter.font());
    const qreal width = tabular_width(painter.font(), text);
    qreal x = where.left();
    if (alignment & Qt::AlignRight) x = where.right() - width;
    if (alignment & Qt::AlignHCenter) x = where.center().x() - width / 2;
    qreal y = where.center().y() + (metrics.ascent() - metrics.descent()) / 2;
    if (alignment & Qt::AlignTop) y = where.top() + metrics.ascent();
    if (alignment & Qt::AlignBottom) y = where.bottom() - metrics.descent();
    const QFont font = painter.font();
    const Digits& digits = digits_of(font);
    for_runs(font, metrics, text, [&](const QString& run, qreal cell, bool digit) {
        const int value = digit ? run[0].digitValue() : -1;
        const bool ascii = value >= 0 && run[0].unicode() <= u'9';
        const qreal own = ascii   ? digits.own[static_cast<std::size_t>(value)]
                          : digit ? metrics.horizontalAdvance(run)
                                  : cell;
        painter.drawText(QPointF(x + (cell - own) / 2, y), run);
        x += cell;
    });
}

void TabularDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const QString text = item.text;
    const QStyle* style = item.widget ? item.widget->style() : QApplication::style();
    const QRect room = style->subElementRect(QStyle::SE_ItemViewItemText, &item, item.widget);
    item.text.clear();
    style->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    painter->save();
    painter->setFont(item.font);
    const QVariant own = index.data(Qt::ForegroundRole);
    painter->setPen(own.canConvert<QBrush>() && own.isValid() ? own.value<QBrush>().color()
                                                              : tone(Tone::ink));
    draw_tabular(*painter, QRectF(room).adjusted(kSpace1, 0, -kSpace1, 0), item.displayAlignment, text);
    painter->restore();
}

QSize TabularDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const QSize usual = QStyledItemDelegate::sizeHint(option, index);
    const int own = static_cast<int>(tabular_width(option.font, index.data().toString())) + 2 * kSpace3;
    return {std::max(usual.width(), own), usual.height()};
}

}  // namespace evenfall::ui
