// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QIcon>
#include <QPainter>
#include <QString>

#include "theme/tones.h"

namespace evenfall::ui {

/// Paints a drawing of `resources/icons/<name>.svg` (drawn in black) in a tone. Sharp at every scale.
void draw_icon(QPainter& painter, const QString& name, const QRectF& where, Tone tone);
/// The same as an icon for a button; follows the theme.
QIcon icon(const QString& name, Tone tone = Tone::ink);

}  // namespace evenfall::ui
