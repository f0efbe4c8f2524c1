// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPointF>
#include <QSizeF>
#include <QString>
#include <vector>

#include "model/product.h"

class QPainter;

// Pieces drawn to shape: a filled part is taken, a dashed outline is what stays. One painting function serves
// screen, preview, PDF and printer, in whatever unit the painter works; shape and fill alone carry the
// meaning, never colour.

namespace evenfall::ui {

/// The colours of a drawing. Black and white is enough.
struct PieceInk {
    QColor taken = Qt::black;    ///< fill of what is taken
    QColor rest = Qt::darkGray;  ///< dashed outline of what stays of a cut unit
    QColor paper =
        Qt::white;  ///< behind the drawing: the inside of an empty syringe, scratches on a filled shape
};

/// How a drawing is laid out, in the painter's unit.
struct PieceLayout {
    double unit = 16;         ///< height and width of a round tablet; the height of a line
    double gap = 3;           ///< between figures
    double line_gap = 4;      ///< between lines
    double most_width = 1e9;  ///< a new line begins where the next figure would pass this
    /// The strength of each solid product stands in a frame before its figures, like the label on its pack:
    /// two strengths of one shape look the same.
    bool strengths = false;
};

/// More figures of one piece than this are drawn as one with "× n" beside it.
inline constexpr int kMostFigures = 12;

/// The room that the drawing takes, line breaks included; empty for no pieces.
QSizeF pieces_size(const std::vector<Piece>& pieces, const PieceLayout& layout);

/// The width below which a drawing cannot be broken into lines: its widest figure, with the strength before
/// it.
double widest_figure(const std::vector<Piece>& pieces, const PieceLayout& layout);

/// Draws the pieces from `top_left` on. The painter's state is left as it was.
void paint_pieces(QPainter& painter, const QPointF& top_left, const std::vector<Piece>& pieces,
                  const PieceLayout& layout, const PieceInk& ink);

/// One figure in a box of figure_size: a whole unit, a half, a quarter, or an oral syringe filled to
/// `volume`.
void paint_figure(QPainter& painter, const QPointF& top_left, const Piece& piece, double unit,
                  const PieceInk& ink);
QSizeF figure_size(const Piece& piece, double unit);

/// The oral syringe that is drawn for a volume, in mL: the smallest of 1, 3, 5, 10 and 20 that holds it.
double syringe_capacity_ml(Volume volume);

/// The pieces in words of the window's language: "2 tablets + half + quarter of a 2 mg tablet", "1 tablet of
/// 0.5 mg and half of a 0.125 mg orally disintegrating tablet", "0.4 mL of a 1 mg/mL oral solution";
/// "nothing" for no pieces.
QString pieces_text(const std::vector<Piece>& pieces);

}  // namespace evenfall::ui
