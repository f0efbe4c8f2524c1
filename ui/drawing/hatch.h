// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainter>
#include <cmath>

namespace evenfall::ui {

/// Diagonal lines over a box: what is not yet agreed. The lines run through from one box to the next.
inline void hatch(QPainter& painter, const QRectF& box, const QColor& colour, double apart = 7) {
    painter.save();
    painter.setClipRect(box, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, 1));
    const double first = std::floor((box.left() + box.top()) / apart) * apart;
    for (double sum = first; sum < box.right() + box.bottom(); sum += apart)
        painter.drawLine(QPointF(sum - box.top(), box.top()), QPointF(sum - box.bottom(), box.bottom()));
    painter.restore();
}

}  // namespace evenfall::ui
