// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_cell.h"

#include <QPainter>
#include <algorithm>

#include "drawing/pieces.h"
#include "papers/paper_columns.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kGap = 0.22;      // between drawn pieces, in sizes of type
constexpr double kLineGap = 0.25;  // between lines of them
constexpr double kBeside = 0.7;    // between them and words beside them
constexpr double kBar = 2.8;       // points of the bar beside a change, in the white of kCellPad
const PieceInk kInk{kPaperInk, kPaperRule, Qt::white};

}  // namespace

void CellSetter::add_text(const std::string& text, bool bold) {
    const PaperText set(paper_string(text), {style_.text, bold, kPaperInk}, width_);
    add(set.height(), [set](QPainter& painter, const QPointF& at) { set.paint(painter, at); });
}

void CellSetter::add_cell(const Cell& cell) {
    for (const std::string& line : cell.strong) add_text(line, true);
    for (const DoseInCell& dose : cell.doses) {
        if (dose.tick_box) box_tops_.push_back(height_);
        add_dose(dose);
    }
    for (const std::string& line : cell.lines) add_text(line, false);
    if (cell.tick_box && box_tops_.empty()) box_tops_.push_back(0);
}

bool CellSetter::fits_beside(const DoseInCell& dose) const {
    return !dose.lines.empty() && beside_left(dose) + first_line_of(dose).natural_width() <= width_;
}

/// The words of a dose that changes are heavy, and a bar stands beside all of it: the new amount is what is
/// to be seen, not the old one.
void CellSetter::add_dose(const DoseInCell& dose) {
    const double top = height_;
    const bool changed = !dose.was.empty();
    const bool beside = draws_ && !dose.pieces.empty() && fits_beside(dose);
    if (beside)
        add_beside(dose);
    else if (draws_)
        add_pieces(dose);
    for (std::size_t i = beside ? 1 : 0; i < dose.lines.size(); ++i) add_text(dose.lines[i], changed);
    if (!changed) return;
    add_text(dose.was, false);
    changes_.push_back({top, height_});
}

/// Pieces with the first line of their words beside them.
void CellSetter::add_beside(const DoseInCell& dose) {
    const PieceLayout layout = figures_of(dose);
    const QSizeF size = pieces_size(dose.pieces, layout);
    const double left = beside_left(dose);
    const PaperText set = first_line_of(dose);
    const double height = std::max(size.height(), set.height());
    add(height + 1.5, [=, pieces = dose.pieces](QPainter& painter, const QPointF& at) {
        paint_pieces(painter, at, pieces, layout, kInk);
        set.paint(painter, at + QPointF(left, (height - set.height()) / 2));
    });
}

void CellSetter::add_pieces(const DoseInCell& dose) {
    if (dose.pieces.empty()) return;
    PieceLayout layout = figures_of(dose);
    layout.line_gap = style_.text * kLineGap;
    layout.most_width = width_;
    add(pieces_size(dose.pieces, layout).height() + 1.5,
        [pieces = dose.pieces, layout](QPainter& painter, const QPointF& at) {
            paint_pieces(painter, at, pieces, layout, kInk);
        });
}

PieceLayout CellSetter::figures_of(const DoseInCell& dose) const {
    PieceLayout layout;
    layout.strengths = dose.names_strengths;
    layout.unit = style_.text * kFigure;
    layout.gap = style_.text * kGap;
    return layout;
}

double CellSetter::beside_left(const DoseInCell& dose) const {
    return pieces_size(dose.pieces, figures_of(dose)).width() + style_.text * kBeside;
}

PaperText CellSetter::first_line_of(const DoseInCell& dose) const {
    return PaperText(paper_string(dose.lines.front()), {style_.text, !dose.was.empty(), kPaperInk}, 1e5);
}

void CellSetter::add(double height, std::function<void(QPainter&, const QPointF&)> paint) {
    elements_.push_back({height, std::move(paint)});
    height_ += height;
}

void paint_elements(QPainter& painter, const std::vector<CellElement>& elements, QPointF at) {
    for (const CellElement& element : elements) {
        element.paint(painter, at);
        at.ry() += element.height;
    }
}

void paint_tick_boxes(QPainter& painter, const QPointF& at, const std::vector<double>& tops, double size) {
    for (const double top : tops) {
        painter.setPen(QPen(kPaperInk, 1));
        painter.setBrush(Qt::white);
        painter.drawRect(QRectF(at + QPointF(0, top), QSizeF(size, size)));
    }
}

void paint_change_bars(QPainter& painter, const QPointF& at, const std::vector<CellSpan>& changes) {
    const double left = at.x() - kCellPad;  // at the rule of the column, apart from the words
    for (const CellSpan& change : changes)
        painter.fillRect(QRectF(left, at.y() + change.from, kBar, change.to - change.from), kPaperInk);
}

}  // namespace evenfall::ui
