// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "papers/document.h"
#include "papers/grid_heads.h"
#include "papers/paper_flow.h"
#include "papers/paper_style.h"
#include "papers/paper_text.h"

namespace evenfall::ui {

/// Turns the blocks of a paper into atoms of one column's width.
class PaperSetter {
  public:
    PaperSetter(const PaperStyle& style, double width) : style_(style), width_(width) {}

    /// Title, subtitle and the patient's line.
    void set_head(const papers::Document& document);
    void set(const papers::Block& block);
    Atoms take() && { return std::move(atoms_); }

  private:
    void set_content(const papers::Heading& heading, Glue glue);
    void set_content(const papers::Paragraph& paragraph, Glue glue);
    void set_content(const papers::Notice& notice, Glue glue);
    void set_content(const papers::List& list, Glue glue);
    void set_content(const papers::Sides& sides, Glue glue);
    void set_content(const papers::KeyValues& values, Glue glue);
    void set_content(const papers::Mark& mark, Glue glue);
    void set_content(const papers::Table& table, Glue glue);
    void set_content(const papers::Signature& signature, Glue glue);
    void set_content(const papers::Grid& grid, Glue glue);
    /// `lines_high`: room to write in, in lines of text.
    void set_grid(const papers::Grid& grid, Heads heads, double lines_high, Glue glue);
    void set_content(const papers::DoseChart& chart, Glue glue);
    void set_content(const papers::PageBreak& page_break, Glue glue);

    void set_side(const papers::Side& side, Glue glue);
    /// All that was set so far as one atom that is never divided.
    static std::shared_ptr<Atom> joined(const Atoms& atoms);

    void add(double height, std::function<void(QPainter&, const QPointF&)> paint, Glue glue);
    /// What is set elsewhere, and the white below it; with a hard glue its end is held to what follows.
    void append(Atoms made, double below, Glue glue);
    void add_text(const std::string& text, const PaperText::Face& face, Glue glue);
    /// The text alone, or in parts where no page may hold it whole: a few lines first and last, and each line
    /// between them, so that a page never ends or begins with one line of it.
    std::vector<PaperText> parts_of(const PaperText& text) const;
    PaperText text(const std::string& text, const PaperText::Face& face, double width) const;
    PaperText::Face plain() const { return {style_.text, false, kPaperInk}; }
    PaperText::Face bold() const { return {style_.text, true, kPaperInk}; }

    const PaperStyle& style_;
    double width_;
    Atoms atoms_;
    bool break_next_ = false;
};

/// The atoms of a table: columns side by side where they are wide enough, else one dose time under the other.
Atoms table_atoms(const papers::Table& table, const PaperStyle& style, double width);

/// The side of a mark with its quiet zone of four modules, in points.
double mark_side(const papers::Mark& mark);
/// Paints a mark as black squares from the corner of its quiet zone on.
void paint_mark(QPainter& painter, const QPointF& corner, const papers::Mark& mark);

}  // namespace evenfall::ui
