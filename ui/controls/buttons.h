// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPushButton>
#include <QToolButton>

namespace evenfall::ui {

/// How much a button asks for attention.
enum class ButtonKind {
    plain,    ///< edge, no ground
    primary,  ///< the one act of a page
    quiet,    ///< a word without an edge ("Why?")
};

/// A button that says what it does.
QPushButton* make_button(const QString& text, ButtonKind kind = ButtonKind::plain, QWidget* parent = nullptr);
void set_button_kind(QPushButton* button, ButtonKind kind);

/// A small square button with a drawing; `name` is its accessible name and tool tip.
QToolButton* make_icon_button(const QString& icon_name, const QString& name, QWidget* parent = nullptr);

/// Disables a control and says why, as its tool tip and to a screen reader; an empty reason enables it.
void set_reason_disabled(QWidget* control, const QString& reason);

}  // namespace evenfall::ui
