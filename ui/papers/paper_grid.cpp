// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>
#include <numeric>

#include "papers/paper_blocks.h"
#include "papers/paper_columns.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kPad = 2;
constexpr double kLeastHead = 11;     // points
constexpr double kLine = 1.27;        // of the size of type
constexpr double kTightLines = 0.75;  // of the room to write in, where a page would not hold the grid
constexpr double kLeastToWrite = 30;  // points of a column that is filled in by hand

/// The heads of a grid, set into its columns: across, or turned where words would break.
struct Heads {
    std::vector<PaperText> texts;
    std::vector<double> widths;
    double height = 0;
    bool turned = false;
};

std::string head_of(const Column& column) {
    return column.note.empty() ? column.title : column.title + " " + column.note;
}

/// What stands before a row takes two lines at most, or one where that is asked and there is room.
double least_first(const Grid& grid, double width, double text_size, bool one_line) {
    double widest = 0;
    double word = 0;
    const PaperText::Face face{text_size, false, kPaperInk};
    for (const std::string& row : grid.rows) {
        widest = std::max(widest, PaperText(paper_string(row), face, 1e5).natural_width());
        word = std::max(word, longest_word(row, face));
    }
    return std::max(word, std::min(widest * (one_line ? 1 : 0.7), width * 0.25)) + 2 * kPad + 1;
}

std::vector<double> least_widths(const Grid& grid, double width, const PaperText::Face& head,
                                 double text_size, bool one_line) {
    std::vector<double> least;
    for (const Column& column : grid.columns)
        least.push_back(longest_word(head_of(column), head) + 2 * kPad + 1);
    least.front() = std::max(least.front(), least_first(grid, width, text_size, one_line));
    return least;
}

std::vector<double> shares_of(const Grid& grid) {
    std::vector<double> shares;
    for (const Column& column : grid.columns) shares.push_back(column.share);
    return shares;
}

/// Many columns of large print have smaller headings, never below what is followed in normal print; where
/// even those would break inside a word they are turned by a quarter.
Heads heads_of(const Grid& grid, double width, PaperText::Face face, double text_size, bool one_line) {
    Heads heads;
    const std::vector<double> shares = shares_of(grid);
    heads.widths = shared_widths(width, least_widths(grid, width, face, text_size, one_line), shares);
    for (; heads.widths.empty() && face.size > kLeastHead; --face.size)
        heads.widths = shared_widths(
            width, least_widths(grid, width, {face.size - 1, face.bold, face.colour}, text_size, one_line),
            shares);
    heads.turned = heads.widths.empty();
    if (heads.turned) {
        std::vector<double> least(grid.columns.size(), std::min(kLeastToWrite, width / 40));
        least.front() = std::max(least_first(grid, width, text_size, one_line),
                                 longest_word(head_of(grid.columns.front()), face) + 2 * kPad + 1);
        heads.widths = shared_widths(width, least, shares);
        if (heads.widths.empty())
            heads.widths.assign(grid.columns.size(), width / static_cast<double>(shares.size()));
    }
    for (std::size_t i = 0; i < grid.columns.size(); ++i) {
        const bool turned = heads.turned && i > 0;
        const PaperText set(paper_string(head_of(grid.columns[i])), face,
                            turned ? 1e5 : heads.widths[i] - 2 * kPad);
        heads.texts.push_back(set);
        heads.height = std::max(heads.height, (turned ? set.natural_width() : set.height()) + 2 * kPad);
    }
    return heads;
}

void paint_row(QPainter& painter, const QPointF& at, const std::vector<PaperText>& cells,
               const std::vector<double>& widths, double height) {
    double x = at.x();
    painter.setPen(QPen(kPaperRule, 0.7));
    painter.setBrush(Qt::NoBrush);
    for (const double width : widths) {
        painter.drawRect(QRectF(x, at.y(), width, height));
        x += width;
    }
    if (!cells.empty()) cells.front().paint(painter, at + QPointF(kPad, kPad));
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
        if (heads.turned && i > 0) {
            painter.translate(box.left() + (box.width() - heads.texts[i].height()) / 2, box.bottom() - kPad);
            painter.rotate(-90);
            heads.texts[i].paint(painter, {0, 0});
        } else {
            heads.texts[i].paint(painter, box.topLeft() + QPointF(kPad, kPad));
        }
        painter.restore();
        x += heads.widths[i];
    }
}

Grid without_spare(Grid grid) {
    std::erase_if(grid.columns, [](const Column& column) { return column.spare; });
    return grid;
}

}  // namespace

void PaperSetter::set_content(const Grid& whole, Glue glue) {
    Heads heads = heads_of(whole, width_, bold(), style_.text, style_.tight);
    // Before heads are turned, what begins a row takes two lines, and the room for notes goes.
    for (const Grid& grid : {whole, without_spare(whole)})
        if (Heads two_lines; heads.turned) {
            two_lines = heads_of(grid, width_, bold(), style_.text, false);
            if (!two_lines.turned) heads = std::move(two_lines);
        }
    const bool titled =
        std::ranges::any_of(whole.columns, [](const Column& column) { return !column.title.empty(); });
    Atoms repeated;
    if (titled) {
        add(
            heads.height, [heads](QPainter& painter, const QPointF& at) { paint_heads(painter, at, heads); },
            Glue::hard);
        repeated.push_back(atoms_.back());
    }
    const double lines = whole.lines_high * (style_.tight && whole.lines_high > 1 ? kTightLines : 1);
    for (const std::string& row : whole.rows) {
        const PaperText name = text(row, plain(), heads.widths.front() - 2 * kPad);
        const double height = std::max(name.height(), lines * style_.text * kLine) + 2 * kPad;
        add(
            height,
            [name, widths = heads.widths, height](QPainter& painter, const QPointF& at) {
                paint_row(painter, at, {name}, widths, height);
            },
            Glue::none);
        auto atom = std::make_shared<Atom>(*atoms_.back());
        if (&row != &whole.rows.front()) atom->repeated = repeated;
        atoms_.back() = std::move(atom);
    }
    atoms_.push_back(space(style_.gap * 1.4, glue));
}

}  // namespace evenfall::ui
