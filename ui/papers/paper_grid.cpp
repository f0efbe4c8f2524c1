// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>

#include "papers/paper_blocks.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kLine = 1.27;         // of the size of type
constexpr double kTightLines = 0.75;   // of the room to write in, where a page would not hold the grid
constexpr double kMostToAsk = 0.62;    // of the width, for a question beside its answer
constexpr std::size_t kFirstRows = 3;  // of a grid, which stay together
constexpr double kTurnedRow = 18;      // points of type of a row with a cell for each day: a time is written
constexpr double kSmallBox = 0.4;      // of a page's height: a grid below it stands on one page

void paint_row(QPainter& painter, const QPointF& at, const std::vector<PaperText>& cells,
               const std::vector<double>& widths, double height) {
    double x = at.x();
    painter.setPen(QPen(kPaperRule, 0.7));
    painter.setBrush(Qt::NoBrush);
    for (const double width : widths) {
        painter.drawRect(QRectF(x, at.y(), width, height));
        x += width;
    }
    if (!cells.empty()) cells.front().paint(painter, at + QPointF(kGridSide, kGridPad));
}

void paint_heads(QPainter& painter, const QPointF& at, const Heads& heads) {
    double x = at.x();
    for (std::size_t i = 0; i < heads.widths.size(); ++i) {
        const QRectF box(x, at.y(), heads.widths[i], heads.height);
        painter.fillRect(box, kPaperFill);
        painter.setPen(QPen(kPaperRule, 0.7));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box);
        painter.save();
        const auto& [text, turned] = heads.each[i];
        if (turned) {
            painter.translate(box.left() + (box.width() - text.height()) / 2, box.bottom() - kGridPad);
            painter.rotate(-90);
            text.paint(painter, {0, 0});
        } else {  // all heads end above their rows
            text.paint(painter, {box.left() + kGridSide, box.bottom() - kGridPad - text.height()});
        }
        painter.restore();
        x += heads.widths[i];
    }
}

/// Questions with room for an answer beside each: they take two lines at most where the answers leave room.
std::vector<double> question_widths(const Grid& grid, double width, const PaperText::Face& face,
                                    const std::vector<double>& widths) {
    double wanted = widths.front();
    for (const std::string& row : grid.rows) {
        const QString words = paper_string(row);
        while (wanted < width * kMostToAsk &&
               PaperText(words, face, wanted - 2 * kGridSide).lines().size() > 2)
            wanted += face.size;
    }
    wanted = std::min(wanted, std::max(width * kMostToAsk, widths.front()));
    return {wanted, width - wanted};
}

}  // namespace

void PaperSetter::set_content(const Grid& grid, Glue glue) {
    Heads heads = heads_with_room(grid, width_, bold(), style_.text, style_.tight);
    if (!heads.widths.empty()) {
        set_grid(grid, std::move(heads), grid.lines_high, glue);
        return;
    }
    const std::vector<Grid> parts = with_rows_for_columns(grid, width_, bold(), style_.text);
    for (const Grid& part : parts)
        set_grid(part, heads_with_room(part, width_, bold(), style_.text, true), kTurnedRow / style_.text,
                 &part == &parts.back() ? glue : Glue::none);
    if (parts.empty()) set_grid(grid, equal_heads(grid, width_, bold()), grid.lines_high, glue);
}

void PaperSetter::set_grid(const Grid& grid, Heads heads, double lines_high, Glue glue) {
    const bool titled =
        std::ranges::any_of(grid.columns, [](const Column& column) { return !column.title.empty(); });
    if (!titled && grid.columns.size() == 2)
        heads.widths = question_widths(grid, width_, plain(), heads.widths);
    Atoms repeated;
    Atoms rows;
    if (titled) {
        auto head = std::make_shared<Atom>();
        head->height = heads.height;
        head->glue = Glue::hard;
        head->paint = [heads](QPainter& painter, const QPointF& at) { paint_heads(painter, at, heads); };
        repeated.push_back(head);
        rows.push_back(head);
    }
    const double lines =
        lines_high > 1 && style_.tight ? std::max(1.0, lines_high * kTightLines) : lines_high;
    double height = 0;
    for (const std::string& row : grid.rows) {
        const PaperText name = text(row, plain(), heads.widths.front() - 2 * kGridSide);
        auto atom = std::make_shared<Atom>();
        atom->height = std::max(name.height(), lines * style_.text * kLine) + 2 * kGridPad;
        atom->paint = [name, widths = heads.widths, high = atom->height](QPainter& painter,
                                                                         const QPointF& at) {
            paint_row(painter, at, {name}, widths, high);
        };
        if (&row != &grid.rows.front()) atom->repeated = repeated;
        height += atom->height;
        rows.push_back(atom);
    }
    // A small box is never divided, and a page does not end with a row or two of a higher one.
    const bool whole = !style_.divides_boxes && height < kSmallBox * style_.page.height();
    const std::size_t together = whole ? rows.size() : std::min(rows.size(), repeated.size() + kFirstRows);
    for (std::size_t i = repeated.size(); i + 1 < together; ++i) {
        auto atom = std::make_shared<Atom>(*rows[i]);
        atom->glue = Glue::hard;
        rows[i] = std::move(atom);
    }
    append(std::move(rows), style_.gap * 1.4, glue);
}

}  // namespace evenfall::ui
