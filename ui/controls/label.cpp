// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/label.h"

#include <QPainter>

namespace evenfall::ui {

Label::Label(const QString& text, Type size, Tone colour, QWidget* parent)
    : QLabel(text, parent), size_(size), tone_(colour) {
    setTextFormat(Qt::PlainText);
    setFont(type(size_));
    follow_theme();
    connect(&theme_notifier(), &ThemeNotifier::changed, this, &Label::follow_theme);
}

void Label::set_tone(Tone colour) {
    tone_ = colour;
    follow_theme();
}

void Label::set_type(Type size) {
    size_ = size;
    setFont(type(size_));
}

Label* Label::wrapped() {
    setWordWrap(true);
    // A wrapped label is as tall as its width asks for; without this a layout cuts its last line off.
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    return this;
}

void Label::follow_theme() {
    QPalette own = palette();
    own.setColor(QPalette::WindowText, tone(tone_));
    own.setColor(QPalette::Disabled, QPalette::WindowText, tone(Tone::disabled_ink));
    setPalette(own);
}

QSize ElidedLabel::minimumSizeHint() const {
    return {24, Label::minimumSizeHint().height()};
}

void ElidedLabel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const QString shown = fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width());
    if (toolTip() != (shown == text() ? QString() : text())) setToolTip(shown == text() ? QString() : text());
    painter.setPen(palette().color(QPalette::WindowText));
    painter.drawText(contentsRect(), static_cast<int>(alignment()), shown);
}

}  // namespace evenfall::ui
