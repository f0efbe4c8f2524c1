// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <functional>
#include <string>
#include <vector>

#include "papers/document.h"
#include "papers/paper_style.h"
#include "papers/paper_text.h"

class QPainter;

namespace evenfall::ui {

struct PieceLayout;

/// Something drawn in a cell of a table, one under the other.
struct CellElement {
    double height = 0;
    std::function<void(QPainter&, const QPointF&)> paint;
};

/// From where to where something reaches in a cell, below its top.
struct CellSpan {
    double from = 0;
    double to = 0;
};

/// Sets what stands in a cell of a table into its width.
class CellSetter {
  public:
    /// Without drawings where a row above says and draws the same pieces.
    CellSetter(const PaperStyle& style, double width, bool draws = true)
        : style_(style), width_(width), draws_(draws) {}

    void add_text(const std::string& text, bool bold);
    void add_cell(const papers::Cell& cell);

    /// Whether a dose's drawing and the first line of its words fit beside each other.
    bool fits_beside(const papers::DoseInCell& dose) const;

    /// Where the boxes to tick begin, below the top of the cell: one for each dose.
    const std::vector<double>& box_tops() const { return box_tops_; }
    /// The doses that change here.
    const std::vector<CellSpan>& changes() const { return changes_; }
    double height() const { return height_; }
    std::vector<CellElement> take() && { return std::move(elements_); }

  private:
    void add(double height, std::function<void(QPainter&, const QPointF&)> paint);
    void add_dose(const papers::DoseInCell& dose);
    void add_beside(const papers::DoseInCell& dose);
    void add_pieces(const papers::DoseInCell& dose);
    PieceLayout figures_of(const papers::DoseInCell& dose) const;
    double beside_left(const papers::DoseInCell& dose) const;
    PaperText first_line_of(const papers::DoseInCell& dose) const;

    const PaperStyle& style_;
    double width_;
    bool draws_;
    double height_ = 0;
    std::vector<CellElement> elements_;
    std::vector<double> box_tops_;
    std::vector<CellSpan> changes_;
};

void paint_elements(QPainter& painter, const std::vector<CellElement>& elements, QPointF at);
void paint_tick_boxes(QPainter& painter, const QPointF& at, const std::vector<double>& tops, double size);
/// A heavy bar beside each dose that changes, in the white left of the cell whose content begins at `at`.
void paint_change_bars(QPainter& painter, const QPointF& at, const std::vector<CellSpan>& changes);

}  // namespace evenfall::ui
