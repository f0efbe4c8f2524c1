// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/form_item.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include "theme/numerals.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {
constexpr int kSegment = 40;
}

FormItem::FormItem(const QString& item, const QStringList& choices, QWidget* parent)
    : QWidget(parent), item_(item), choices_(choices) {
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    set_answer(-1);
}

QSize FormItem::sizeHint() const {
    return {kSegment * static_cast<int>(choices_.size()), kTarget};
}

QRectF FormItem::segment(int at) const {
    return QRectF(at * kSegment, 0, kSegment, height());
}

void FormItem::set_answer(int answer) {
    answer_ = answer;
    const QString said = answer < 0 ? tr("not answered") : choices_.value(answer);
    setAccessibleName(tr("%1: %2").arg(item_, said));
    setToolTip(said);
    QAccessibleEvent told(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&told);
    update();
}

void FormItem::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    draw_box(painter, rect(), tone(Tone::sunken), tone(Tone::line), structure_line(), kRadius);
    for (int at = 0; at < choices_.size(); ++at) {
        const bool chosen = at == answer_;
        if (chosen)
            draw_box(painter, segment(at).adjusted(2, 2, -2, -2), tone(Tone::selected), tone(Tone::planned),
                     structure_line(), kRadius - 2);
        painter.setFont(type(chosen ? Type::strong : Type::text));
        painter.setPen(tone(chosen ? Tone::ink : Tone::soft_ink));
        draw_tabular(painter, segment(at), Qt::AlignCenter, QString::number(at));
    }
    if (hasFocus()) draw_focus_ring(painter, rect());
}

void FormItem::keyPressEvent(QKeyEvent* event) {
    const QString text = event->text();
    const int number = text.size() == 1 && text[0].isDigit() ? text.toInt() : -1;
    if (number >= 0 && number < choices_.size()) {
        set_answer(number);
        return emit answered();
    }
    if (event->key() == Qt::Key_Backspace || event->key() == Qt::Key_Delete) {
        set_answer(-1);
        return;
    }
    QWidget::keyPressEvent(event);
}

void FormItem::mousePressEvent(QMouseEvent* event) {
    for (int at = 0; at < choices_.size(); ++at)
        if (segment(at).contains(event->position())) {
            set_answer(at);
            emit answered();
        }
}

}  // namespace evenfall::ui
