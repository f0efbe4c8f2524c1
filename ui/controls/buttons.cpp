// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/buttons.h"

#include <QKeyEvent>

#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// A button that Enter presses as Space does, while it has the focus.
class EnterButton : public QPushButton {
  public:
    using QPushButton::QPushButton;

  protected:
    void keyPressEvent(QKeyEvent* event) override {
        const bool enters = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
        const auto with = event->modifiers() & ~Qt::KeypadModifier;
        if (!enters || with != Qt::NoModifier || event->isAutoRepeat() || menu())
            return QPushButton::keyPressEvent(event);
        event->accept();
        click();
    }
};

}  // namespace

QPushButton* make_button(const QString& text, ButtonKind kind, QWidget* parent) {
    auto* button = new EnterButton(text, parent);
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
