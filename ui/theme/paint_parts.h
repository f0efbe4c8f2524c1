// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainter>
#include <QStyleOption>

#include "theme/tones.h"

// The parts that the style draws.

namespace evenfall::ui {

/// A rounded box with its line inside `where`.
void draw_box(QPainter& painter, const QRectF& where, const QColor& fill, const QColor& line, qreal width,
              qreal radius);
void draw_focus_ring(QPainter& painter, const QRectF& where);
void draw_chevron(QPainter& painter, const QRectF& where, Qt::ArrowType direction, const QColor& colour);

void draw_button(QPainter& painter, const QStyleOption& option, const QWidget* widget);
/// The colour of a button's words.
QColor button_ink(const QStyleOption& option, const QWidget* widget);
void draw_field(QPainter& painter, const QStyleOption& option, const QWidget* widget);
void draw_check_box(QPainter& painter, const QStyleOption& option);
void draw_radio(QPainter& painter, const QStyleOption& option);
void draw_tab(QPainter& painter, const QStyleOptionTab& option);
void draw_tab_words(QPainter& painter, const QStyleOptionTab& option);
void draw_row(QPainter& painter, const QStyleOptionViewItem& option);
void draw_header(QPainter& painter, const QStyleOptionHeader& option);
void draw_header_words(QPainter& painter, const QStyleOptionHeader& option);
void draw_scroll_bar(QPainter& painter, const QStyleOptionSlider& option, const QRectF& handle);
void draw_progress(QPainter& painter, const QStyleOptionProgressBar& option);
void draw_frame(QPainter& painter, const QStyleOption& option, const QWidget* widget);

}  // namespace evenfall::ui
