// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/buttons.h"

#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {

QPushButton* make_button(const QString& text, ButtonKind kind, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setAccessibleName(QString(text).remove(QLatin1Char('&')));
    button->setAutoDefault(false);
    button->setCursor(Qt::PointingHandCursor);
    set_button_kind(button, kind);
    return button;
}

void set_button_kind(QPushButton* button, ButtonKind kind) {
    button->setProperty("kind", static_cast<int>(kind));
    button->setFont(type(kind == ButtonKind::quiet ? Type::text : Type::strong));
    button->update();
}

QToolButton* make_icon_button(const QString& icon_name, const QString& name, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setIcon(icon(icon_name, Tone::soft_ink));
    button->setIconSize({18, 18});
    button->setAccessibleName(name);
    button->setToolTip(name);
    button->setProperty("kind", static_cast<int>(ButtonKind::quiet));
    button->setFocusPolicy(Qt::StrongFocus);
    button->setCursor(Qt::PointingHandCursor);
    button->setFixedSize(kTarget, kTarget);
    return button;
}

void set_reason_disabled(QWidget* control, const QString& reason) {
    control->setEnabled(reason.isEmpty());
    control->setToolTip(reason);
    control->setAccessibleDescription(reason);
}

}  // namespace evenfall::ui
