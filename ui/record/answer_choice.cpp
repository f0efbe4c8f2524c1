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

constexpr int kSegment = 76;
constexpr Answer kAnswers[] = {Answer::not_asked, Answer::no, Answer::yes};

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
    return {3 * std::max(kSegment, fontMetrics().horizontalAdvance(sentence_word(Answer::not_asked)) + 16),
            kTarget};
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
    const qreal wide = width() / 3.0;
    for (int at = 0; at < 3; ++at) {
        const bool chosen = kAnswers[at] == answer_;
        const QRectF where(at * wide, 0, wide, height());
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
    choose(kAnswers[std::clamp(static_cast<int>(event->position().x() * 3 / width()), 0, 2)]);
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
