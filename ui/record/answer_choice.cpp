// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/answer_choice.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "texts/render.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr Answer kAnswers[] = {Answer::not_asked, Answer::no, Answer::yes};

/// "Not asked" needs more room than the other two.
constexpr qreal kShares[] = {0.46, 0.27, 0.27};

QRectF segment(const QRectF& whole, int at) {
    const qreal from = at == 0 ? 0 : at == 1 ? kShares[0] : kShares[0] + kShares[1];
    return {whole.left() + whole.width() * from, whole.top(), whole.width() * kShares[at], whole.height()};
}

}  // namespace

AnswerChoice::AnswerChoice(const QString& question, QWidget* parent) : QWidget(parent), question_(question) {
    setFocusPolicy(Qt::StrongFocus);
    setCursor(Qt::PointingHandCursor);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    tell_name();
}

void AnswerChoice::set_answer(Answer answer) {
    answer_ = answer;
    tell_name();
    update();
}

QSize AnswerChoice::sizeHint() const {
    const int widest =
        QFontMetrics(type(Type::strong)).horizontalAdvance(sentence_word(Answer::not_asked)) + 14;
    return {static_cast<int>(widest / kShares[0]), kTarget};
}

void AnswerChoice::tell_name() {
    setAccessibleName(tr("%1: %2").arg(question_, to_text(word(answer_))));
    QAccessibleEvent told(this, QAccessible::NameChanged);
    QAccessible::updateAccessibility(&told);
}

void AnswerChoice::choose(Answer answer) {
    if (answer == answer_) return;
    set_answer(answer);
    emit answered();
}

void AnswerChoice::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    draw_box(painter, rect(), tone(Tone::sunken), tone(Tone::line), structure_line(), kRadius);
    for (int at = 0; at < 3; ++at) {
        const bool chosen = kAnswers[at] == answer_;
        const QRectF where = segment(rect(), at);
        const QRectF inside = where.adjusted(2, 2, -2, -2);
        const bool yes = kAnswers[at] == Answer::yes;
        if (chosen)
            draw_box(painter, inside, tone(yes ? Tone::danger_fill : Tone::card),
                     tone(yes ? Tone::danger : Tone::edge), structure_line(), kRadius - 2);
        painter.setFont(type(chosen ? Type::strong : Type::text));
        painter.setPen(tone(!isEnabled() ? Tone::disabled_ink
                            : chosen     ? (yes ? Tone::danger : Tone::ink)
                                         : Tone::soft_ink));
        painter.drawText(where, Qt::AlignCenter, sentence_word(kAnswers[at]));
    }
    if (hasFocus()) draw_focus_ring(painter, rect());
}

void AnswerChoice::mousePressEvent(QMouseEvent* event) {
    for (int at = 0; at < 3; ++at)
        if (segment(rect(), at).contains(event->position())) choose(kAnswers[at]);
}

void AnswerChoice::keyPressEvent(QKeyEvent* event) {
    const int at = static_cast<int>(answer_);
    switch (event->key()) {
        case Qt::Key_Right:
            return choose(kAnswers[std::min(2, at + 1)]);
        case Qt::Key_Left:
            return choose(kAnswers[std::max(0, at - 1)]);
        case Qt::Key_Y:
            return choose(Answer::yes);
        case Qt::Key_N:
            return choose(Answer::no);
        case Qt::Key_Backspace:
        case Qt::Key_Delete:
            return choose(Answer::not_asked);
        default:
            QWidget::keyPressEvent(event);
    }
}

}  // namespace evenfall::ui
