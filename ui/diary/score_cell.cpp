// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/score_cell.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QPainter>

#include "diary/sheet.h"
#include "theme/numerals.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {
constexpr int kBox = 34;
}

ScoreCell::ScoreCell(const std::string& item, QWidget* parent)
    : QWidget(parent), item_(item), name_(symptom_name(item)) {
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    set_score(std::nullopt);
}

void ScoreCell::set_score(std::optional<int> score) {
    score_ = score;
    setAccessibleName(score_ ? tr("%1, 0 to 10: %2").arg(name_).arg(*score_)
                             : tr("%1, 0 to 10: not rated").arg(name_));
    QAccessibleEvent changed(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&changed);
    update();
}

QSize ScoreCell::sizeHint() const {
    return {kBox + kSpace2 + QFontMetrics(type(Type::text)).horizontalAdvance(name_) + kSpace2, kTarget + 2};
}

void ScoreCell::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const QRectF box(1, 1, kBox, height() - 2);
    draw_box(painter, box, score_ ? symptom_shade(*score_) : tone(Tone::card), tone(Tone::edge),
             structure_line(), kRadius);
    painter.setFont(type(Type::strong));
    if (score_) {
        painter.setPen(symptom_numeral(*score_));
        draw_tabular(painter, box, Qt::AlignCenter, QString::number(*score_));
    }
    painter.setFont(type(Type::text));
    painter.setPen(tone(Tone::ink));
    painter.drawText(QRectF(kBox + kSpace2, 0, width() - kBox - kSpace2, height()),
                     Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(name_, Qt::ElideRight, width() - kBox - kSpace2));
    if (hasFocus()) draw_focus_ring(painter, box);
}

void ScoreCell::keyPressEvent(QKeyEvent* event) {
    const QString text = event->text().toLower();
    const int key = event->key();
    if (text.size() == 1 && text[0] >= u'0' && text[0] <= u'9')
        set_score(text.toInt());
    else if (text == QStringLiteral("x") || text == QStringLiteral("+"))
        set_score(10);
    else if (key == Qt::Key_Backspace || key == Qt::Key_Delete)
        return take_out();
    else if (key == Qt::Key_Right || key == Qt::Key_Down)
        return emit step_wanted(1);
    else if (key == Qt::Key_Left || key == Qt::Key_Up)
        return emit step_wanted(-1);
    else
        return QWidget::keyPressEvent(event);
    emit scored();
}

void ScoreCell::take_out() {
    set_score(std::nullopt);
    emit taken_out();
}

void ScoreCell::mousePressEvent(QMouseEvent*) {
    setFocus(Qt::MouseFocusReason);
}

void ScoreCell::focusInEvent(QFocusEvent*) {
    update();
}

void ScoreCell::focusOutEvent(QFocusEvent*) {
    update();
}

}  // namespace evenfall::ui
