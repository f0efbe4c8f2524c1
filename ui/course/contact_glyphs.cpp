// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/contact_glyphs.h"

#include <QPainterPath>

namespace evenfall::ui {
namespace {

// All drawn on a field of 16 by 16.

QPainterPath receiver() {
    QPainterPath path(QPointF(3, 2.5));
    path.lineTo(6, 2);
    path.lineTo(7.5, 5.5);
    path.lineTo(5.8, 7);
    path.cubicTo(6.6, 8.8, 7.4, 9.6, 9.2, 10.3);
    path.lineTo(10.6, 8.6);
    path.lineTo(14, 10.2);
    path.lineTo(13.4, 13.2);
    path.cubicTo(8, 15, 1.5, 8.5, 3, 2.5);
    return path;
}

void paper(QPainter& painter) {
    painter.drawPolygon(QPolygonF({{3.5, 1.5}, {9.5, 1.5}, {12.5, 4.5}, {12.5, 14.5}, {3.5, 14.5}}));
    for (const double y : {7.0, 9.5, 12.0}) painter.drawLine(QPointF(5.5, y), QPointF(10.5, y));
}

void pen(QPainter& painter, const QColor& ink) {
    painter.drawPolygon(QPolygonF({{2, 14}, {3, 10.2}, {11, 2.2}, {13.8, 5}, {5.8, 13}}));
    painter.setBrush(ink);
    painter.drawPolygon(QPolygonF({{2, 14}, {3, 10.2}, {5.8, 13}}));
}

void calendar_page(QPainter& painter) {
    painter.drawRoundedRect(QRectF(2, 3, 12, 11), 1.5, 1.5);
    painter.drawLine(QPointF(2, 6.5), QPointF(14, 6.5));
    painter.drawLine(QPointF(5.5, 1.2), QPointF(5.5, 4.2));
    painter.drawLine(QPointF(10.5, 1.2), QPointF(10.5, 4.2));
}

void speech(QPainter& painter) {
    QPainterPath path;
    path.addRoundedRect(QRectF(1.5, 2.5, 13, 8.5), 2.5, 2.5);
    QPainterPath tail;
    tail.addPolygon(QPolygonF({{4, 10}, {4, 14.5}, {8.5, 10}}));
    painter.drawPath(path.united(tail));
}

void box_of_tablets(QPainter& painter, const QColor& ink) {
    painter.drawRoundedRect(QRectF(1.5, 3.5, 13, 9), 1, 1);
    painter.setBrush(ink);
    for (const double x : {4.8, 8.0, 11.2})
        for (const double y : {6.2, 9.8}) painter.drawEllipse(QPointF(x, y), 0.7, 0.7);
}

void dosing(QPainter& painter, const QColor& ink) {
    painter.drawEllipse(QPointF(8, 8), 6, 6);
    painter.setBrush(ink);
    QPainterPath half(QPointF(8, 2));
    half.arcTo(QRectF(2, 2, 12, 12), 90, 180);
    half.closeSubpath();
    painter.drawPath(half);
}

}  // namespace

void draw_contact(QPainter& painter, const QRectF& box, ContactMark::Kind kind, const QColor& ink,
                  const QColor& ground) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    painter.scale(box.width() / 16, box.height() / 16);
    painter.setPen(QPen(ink, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(ground);
    switch (kind) {
        case ContactMark::Kind::check_in:
            painter.setBrush(ink);
            painter.drawPath(receiver());
            break;
        case ContactMark::Kind::paper:
            paper(painter);
            break;
        case ContactMark::Kind::signature:
            pen(painter, ink);
            break;
        case ContactMark::Kind::planned:
            calendar_page(painter);
            break;
        case ContactMark::Kind::note:
            speech(painter);
            break;
        case ContactMark::Kind::supply:
            box_of_tablets(painter, ink);
            break;
        case ContactMark::Kind::regimen:
            dosing(painter, ink);
            break;
    }
    painter.restore();
}

}  // namespace evenfall::ui
