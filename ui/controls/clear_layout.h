// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QLayout;
class QWidget;

namespace evenfall::ui {

/// Puts away what a layout holds; it is deleted from the event loop.
void clear_layout(QLayout& layout);
/// Whether `clear_layout` put a widget away that is not deleted yet.
bool is_put_away(const QWidget& widget);

}  // namespace evenfall::ui
