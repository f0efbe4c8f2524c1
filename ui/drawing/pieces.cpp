// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/pieces.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "units/dose_text.h"

namespace evenfall::ui {
namespace {

constexpr double kLine = 1.0 / 18;  // thickness of outlines, of the unit

/// The outline of a whole unit in a box, symmetric left to right and top to bottom so that cuts divide it
/// evenly.
QPainterPath hexagon(const QRectF& box) {
    QPolygonF corners;
    const double radius = box.height() / 2;
    for (int i = 0; i < 6; ++i) {
        const double angle = std::numbers::pi / 6 + i * std::numbers::pi / 3;
        corners << box.center() + radius * QPointF(std::cos(angle), std::sin(angle));
    }
    QPainterPath path;
    path.addPolygon(corners);
    path.closeSubpath();
    return path;
}

QPainterPath drop(const QRectF& box) {
    QPainterPath path;
    path.moveTo(box.center().x(), box.top());
    path.cubicTo(box.right(), box.center().y(), box.right(), box.bottom(), box.center().x(), box.bottom());
    path.cubicTo(box.left(), box.bottom(), box.left(), box.center().y(), box.center().x(), box.top());
    return path;
}

QPainterPath outline(Form form, const QRectF& box) {
    QPainterPath path;
    const double height = box.height();
    switch (form) {
        case Form::orally_disintegrating_tablet:
            return hexagon(box);
        case Form::oral_spray:
            return drop(box);
        case Form::capsule:
        case Form::extended_release_capsule: {
            const double inset = height * 0.16;
            const QRectF body = box.adjusted(0, inset, 0, -inset);
            path.addRoundedRect(body, body.height() / 2, body.height() / 2);
            return path;
        }
        case Form::extended_release_tablet:
            path.addEllipse(box.adjusted(0, height * 0.1, 0, -height * 0.1));
            return path;
        case Form::sublingual_tablet:
            path.addRoundedRect(box, height * 0.3, height * 0.3);
            return path;
        case Form::oral_film:
            path.addRect(box.adjusted(0, height * 0.15, 0, -height * 0.15));
            return path;
        default:
            path.addEllipse(box);
            return path;
    }
}

/// Width of a figure over its height.
double aspect(Form form) {
    switch (form) {
        case Form::capsule:
        case Form::extended_release_capsule:
            return 1.8;
        case Form::extended_release_tablet:
            return 1.5;
        case Form::oral_film:
            return 1.3;
        case Form::oral_spray:
            return 0.8;
        default:
            return is_liquid(form) ? 4.2 : 1.0;
    }
}

QRectF taken_part(Cut cut, const QRectF& box) {
    if (cut == Cut::half) return {box.left(), box.top(), box.width() / 2, box.height()};
    if (cut == Cut::quarter) return {box.left(), box.top(), box.width() / 2, box.height() / 2};
    return box;
}

void paint_solid(QPainter& painter, const Piece& piece, const QRectF& box, const PieceInk& ink) {
    const double line = box.height() * kLine;
    const QPainterPath shape =
        outline(piece.product.form, box.adjusted(line / 2, line / 2, -line / 2, -line / 2));
    if (piece.cut != Cut::whole) {
        QPen dashed(ink.rest, line);
        dashed.setDashPattern({2.2, 2.2});
        painter.strokePath(shape, dashed);
        painter.setClipRect(taken_part(piece.cut, box), Qt::IntersectClip);
    }
    painter.fillPath(shape, ink.taken);
    const Form form = piece.product.form;
    if (form == Form::capsule || form == Form::extended_release_capsule) {
        painter.setPen(QPen(ink.paper, line));
        const double seam = box.center().x() + box.width() * 0.06;
        painter.drawLine(QPointF(seam, box.top() + box.height() * 0.16),
                         QPointF(seam, box.bottom() - box.height() * 0.16));
    }
}

/// An oral syringe lying on its side: tip left, plunger right, filled from the tip to a mark that stands out.
void paint_syringe(QPainter& painter, const Piece& piece, const QRectF& box, const PieceInk& ink) {
    const double unit = box.height(), line = unit * kLine;
    const QRectF barrel(box.left() + 0.3 * unit, box.top() + 0.22 * unit, 3.0 * unit, 0.56 * unit);
    const double filled =
        barrel.width() * std::min(1.0, piece.volume.ml() / syringe_capacity_ml(piece.volume));
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink.taken);
    painter.drawRect(QRectF(box.left(), box.center().y() - 0.09 * unit, 0.3 * unit, 0.18 * unit));
    painter.setBrush(ink.paper);
    painter.drawRect(barrel);
    painter.setBrush(ink.taken);
    painter.drawRect(QRectF(barrel.topLeft(), QSizeF(filled, barrel.height())));

    const double mark = barrel.left() + filled;
    painter.setPen(QPen(ink.taken, line));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(barrel);
    painter.drawRect(QRectF(mark, barrel.center().y() - 0.07 * unit, box.right() - line - mark, 0.14 * unit));
    painter.drawLine(QPointF(box.right() - line, barrel.top()), QPointF(box.right() - line, barrel.bottom()));
    for (int tick = 1; tick < 10; ++tick) {
        const double x = barrel.left() + barrel.width() * tick / 10;
        painter.setPen(QPen(x < mark ? ink.paper : ink.taken, line * 0.8));
        painter.drawLine(QPointF(x, barrel.bottom() - (tick == 5 ? 0.3 : 0.18) * unit),
                         QPointF(x, barrel.bottom() - line / 2));
    }
    painter.setPen(QPen(ink.taken, line * 2));
    painter.drawLine(QPointF(mark, box.top()), QPointF(mark, box.bottom()));
}

/// A figure of a drawing: one piece, or one that stands for `times` of them.
struct Figure {
    const Piece* piece;
    int times = 1;
    bool begins_product = false;
};

std::vector<Figure> figures(const std::vector<Piece>& pieces) {
    std::vector<Figure> drawn;
    for (const Piece& piece : pieces) {
        const bool other = !drawn.empty() && drawn.back().piece->product != piece.product;
        if (piece.cut == Cut::ml || piece.count > kMostFigures)
            drawn.push_back({&piece, std::max(piece.count, 1), other});
        else
            for (int i = 0; i < piece.count; ++i) drawn.push_back({&piece, 1, other && i == 0});
    }
    return drawn;
}

QString times_text(int times) {
    return QStringLiteral("×\u2009%1").arg(times);
}

/// Words of a drawing: the default face, so high that a line of it takes `height` in the painter's unit.
QFont figure_font(double height) {
    QFont font;
    font.setPointSizeF(100);
    font.setBold(true);
    font.setPointSizeF(std::max(1.0, 100 * height / QFontMetricsF(font).height()));
    return font;
}

QFont times_font(double unit) {
    return figure_font(unit * 0.8);
}

/// Drawn as a path so that the size is in the painter's unit, not in points of the device.
void paint_words(QPainter& painter, const QPointF& baseline, const QFont& font, const QString& words,
                 const QColor& colour) {
    QPainterPath glyphs;
    glyphs.addText(baseline, font, words);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillPath(glyphs, colour);
    painter.restore();
}

double times_width(const Figure& figure, double unit) {
    return figure.times == 1
               ? 0
               : QFontMetricsF(times_font(unit)).horizontalAdvance(times_text(figure.times)) + unit * 0.25;
}

/// What stands in the frame before the figures of a solid product.
QString strength_text(const Product& product) {
    return QString::fromStdString(print_dose(product.strength));
}

QFont strength_font(double unit) {
    return figure_font(unit * 0.86);
}

/// The frame with the strength, and the room between it and the first figure.
double strength_frame(const Product& product, double unit) {
    return QFontMetricsF(strength_font(unit)).horizontalAdvance(strength_text(product)) + unit * 0.4;
}
double strength_room(double unit) {
    return unit * 0.2;
}

void paint_strength(QPainter& painter, const QPointF& top_left, const Product& product, double unit,
                    const PieceInk& ink) {
    const double line = unit * kLine;
    const QRectF frame(top_left + QPointF(line / 2, line / 2),
                       QSizeF(strength_frame(product, unit) - line, unit - line));
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(ink.taken, line));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(frame, unit * 0.12, unit * 0.12);
    painter.restore();
    const QFont font = strength_font(unit);
    const QFontMetricsF metrics(font);
    paint_words(painter, top_left + QPointF(unit * 0.2, (unit + metrics.capHeight()) / 2), font,
                strength_text(product), ink.taken);
}

/// Lays figures out and calls each(figure, top left, whether its strength stands before it); returns the
/// size.
template <class Each>
QSizeF lay_out(const std::vector<Figure>& drawn, const PieceLayout& layout, Each each) {
    double x = 0, y = 0, widest = 0;
    for (const Figure& figure : drawn) {
        const Product& product = figure.piece->product;
        const bool solid = figure.piece->cut != Cut::ml;
        const double figure_width =
            figure_size(*figure.piece, layout.unit).width() + times_width(figure, layout.unit);
        const double label =
            layout.strengths && solid ? strength_frame(product, layout.unit) + strength_room(layout.unit) : 0;
        const double before = x == 0 ? 0 : layout.gap * (figure.begins_product ? 3 : 1);
        bool named = label > 0 && (x == 0 || figure.begins_product);
        if (x > 0 && x + before + (named ? label : 0) + figure_width > layout.most_width) {
            x = 0;
            y += layout.unit + layout.line_gap;
            named = label > 0;
        } else {
            x += before;
        }
        each(figure, QPointF(x, y), named);
        x += (named ? label : 0) + figure_width;
        widest = std::max(widest, x);
    }
    return drawn.empty() ? QSizeF() : QSizeF(widest, y + layout.unit);
}

}  // namespace

double syringe_capacity_ml(Volume volume) {
    for (const double capacity : {1.0, 3.0, 5.0, 10.0})
        if (volume.ml() <= capacity) return capacity;
    return 20.0;
}

QSizeF figure_size(const Piece& piece, double unit) {
    return {unit * aspect(piece.product.form), unit};
}

QSizeF pieces_size(const std::vector<Piece>& pieces, const PieceLayout& layout) {
    return lay_out(figures(pieces), layout, [](const Figure&, const QPointF&, bool) {});
}

double widest_figure(const std::vector<Piece>& pieces, const PieceLayout& layout) {
    double widest = 0;
    for (const Figure& figure : figures(pieces)) {
        const bool named = layout.strengths && figure.piece->cut != Cut::ml;
        const double label =
            named ? strength_frame(figure.piece->product, layout.unit) + strength_room(layout.unit) : 0;
        widest = std::max(widest, label + figure_size(*figure.piece, layout.unit).width() +
                                      times_width(figure, layout.unit));
    }
    return widest;
}

void paint_figure(QPainter& painter, const QPointF& top_left, const Piece& piece, double unit,
                  const PieceInk& ink) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF box(top_left, figure_size(piece, unit));
    if (piece.cut == Cut::ml)
        paint_syringe(painter, piece, box, ink);
    else
        paint_solid(painter, piece, box, ink);
    painter.restore();
}

void paint_pieces(QPainter& painter, const QPointF& top_left, const std::vector<Piece>& pieces,
                  const PieceLayout& layout, const PieceInk& ink) {
    lay_out(figures(pieces), layout, [&](const Figure& figure, const QPointF& offset, bool named) {
        const Product& product = figure.piece->product;
        QPointF at = top_left + offset;
        if (named) {
            paint_strength(painter, at, product, layout.unit, ink);
            at.rx() += strength_frame(product, layout.unit) + strength_room(layout.unit);
        }
        paint_figure(painter, at, *figure.piece, layout.unit, ink);
        if (figure.times == 1) return;
        const QSizeF size = figure_size(*figure.piece, layout.unit);
        const QFont font = times_font(layout.unit);
        QPainterPath glyphs;
        glyphs.addText(0, 0, font, times_text(figure.times));
        const double baseline = (layout.unit + glyphs.boundingRect().height()) / 2;
        paint_words(painter, at + QPointF(size.width() + layout.unit * 0.25, baseline), font,
                    times_text(figure.times), ink.taken);
    });
}

}  // namespace evenfall::ui
