// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainter>

#include "casework/course.h"

namespace evenfall::ui {

/// A small drawing for a kind of contact, in a square box, in the painter's unit. Each kind has a shape of
/// its own.
void draw_contact(QPainter& painter, const QRectF& box, ContactMark::Kind kind, const QColor& ink,
                  const QColor& ground);

}  // namespace evenfall::ui
