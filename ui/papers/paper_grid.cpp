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
constexpr double kLine = 1.27;             // of the size of type
constexpr double kTightLines = 0.75;       // of the room to write in, where a page would not hold the grid
constexpr double kLeastToWrite = 30;       // points of a column that is filled in by hand
constexpr double kNotes = 30 / 25.4 * 72;  // points of a column for notes
constexpr double kMostBefore = 0.25;       // of the width, for what stands before a row
constexpr double kMostOnOneLine = 0.32;    // the same where that keeps it on one line
constexpr double kMostToAsk = 0.62;        // of the width, for a question beside its answer
constexpr double kSmallBox = 0.4;          // of a page's height: a grid below it stands on one page

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
    return std::max(word, std::min(widest * (one_line ? 1 : 0.7),
                                   width * (one_line ? kMostOnOneLine : kMostBefore))) +
           2 * kPad + 1;
}

std::vector<double> least_widths(const Grid& grid, double width, const PaperText::Face& head,
                                 double text_size, bool one_line) {
    std::vector<double> least;
    for (const Column& column : grid.columns)
        least.push_back(
            std::max(column.spare ? kNotes : 0, longest_word(head_of(column), head) + 2 * kPad + 1));
    least.front() = std::max(least.front(), least_first(grid, width, text_size, one_line));
    return least;
}

std::vector<double> shares_of(const Grid& grid) {
    std::vector<double> shares;
    for (const Column& column : grid.columns) shares.push_back(column.share);
    return shares;
}

/// The head of a column as it is turned: on one line, or on two of about the same length.
PaperText turned_head(const Column& column, const PaperText::Face& face, qsizetype most_lines) {
    const QString words = paper_string(head_of(column));
    const PaperText one_line(words, face, 1e5);
    if (most_lines == 1) return one_line;
    double width = std::max(one_line.natural_width() * 0.5, longest_word(head_of(column), face));
    PaperText lines(words, face, width);
    while (lines.lines().size() > most_lines) lines = PaperText(words, face, width *= 1.08);
    return lines;
}

/// Heads turned by a quarter, on one or two lines each; those that begin the rows stand upright.
Heads turned_heads(const Grid& grid, double width, const PaperText::Face& face, double least_first,
                   qsizetype most_lines, double notes) {
    Heads heads;
    heads.turned = true;
    std::vector<double> least;
    for (const Column& column : grid.columns) {
        const bool first = heads.texts.empty();
        heads.texts.push_back(turned_head(column, face, first ? 1 : most_lines));
        const PaperText& set = heads.texts.back();
        const double along = first ? set.height() : set.natural_width();
        const double across = first ? set.natural_width() + 1 : set.height();
        heads.height = std::max(heads.height, along + 2 * kPad);
        const double to_write = column.spare ? notes : std::min(kLeastToWrite, width / 40);
        least.push_back(std::max(across + 2 * kPad, first ? least_first : to_write));
    }
    heads.widths = shared_widths(width, least, shares_of(grid));
    return heads;
}

/// Where the words of a head would break in columns beside each other, heads are turned by a quarter; they
/// are never set smaller.
Heads heads_of(const Grid& grid, double width, const PaperText::Face& face, double text_size, bool one_line) {
    Heads heads;
    heads.widths =
        shared_widths(width, least_widths(grid, width, face, text_size, one_line), shares_of(grid));
    if (heads.widths.empty()) {
        struct Manner {
            int lines;
            bool whole;
            double notes;
        };
        for (const auto& [lines, whole, notes] : {Manner{2, true, kNotes},
                                                  {2, one_line, kNotes},
                                                  {1, one_line, kNotes},
                                                  {1, false, kNotes},
                                                  {1, one_line, kLeastToWrite}})
            if (heads.widths.empty())
                heads =
                    turned_heads(grid, width, face, least_first(grid, width, text_size, whole), lines, notes);
        if (heads.widths.empty())
            heads.widths.assign(grid.columns.size(), width / static_cast<double>(grid.columns.size()));
        return heads;
    }
    for (std::size_t i = 0; i < grid.columns.size(); ++i) {
        heads.texts.emplace_back(paper_string(head_of(grid.columns[i])), face, heads.widths[i] - 2 * kPad);
        heads.height = std::max(heads.height, heads.texts.back().height() + 2 * kPad);
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

/// Questions with room for an answer beside each: they take two lines at most where the answers leave room.
std::vector<double> question_widths(const Grid& grid, double width, const PaperText::Face& face,
                                    const std::vector<double>& widths) {
    double wanted = widths.front();
    for (const std::string& row : grid.rows) {
        const QString words = paper_string(row);
        while (wanted < width * kMostToAsk && PaperText(words, face, wanted - 2 * kPad).lines().size() > 2)
            wanted += face.size;
    }
    wanted = std::min(wanted, std::max(width * kMostToAsk, widths.front()));
    return {wanted, width - wanted};
}

}  // namespace

void PaperSetter::set_content(const Grid& grid, Glue glue) {
    Heads heads = heads_of(grid, width_, bold(), style_.text, style_.tight);
    // Before heads are turned, what begins a row takes two lines.
    if (heads.turned)
        if (Heads two_lines = heads_of(grid, width_, bold(), style_.text, false); !two_lines.turned)
            heads = std::move(two_lines);
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
    const double lines = grid.lines_high * (style_.tight && grid.lines_high > 1 ? kTightLines : 1);
    double height = 0;
    for (const std::string& row : grid.rows) {
        const PaperText name = text(row, plain(), heads.widths.front() - 2 * kPad);
        auto atom = std::make_shared<Atom>();
        atom->height = std::max(name.height(), lines * style_.text * kLine) + 2 * kPad;
        atom->paint = [name, widths = heads.widths, high = atom->height](QPainter& painter,
                                                                         const QPointF& at) {
            paint_row(painter, at, {name}, widths, high);
        };
        if (&row != &grid.rows.front()) atom->repeated = repeated;
        height += atom->height;
        rows.push_back(atom);
    }
    // A small box is never divided.
    const bool whole = !style_.divides_boxes && height < kSmallBox * style_.page.height();
    for (std::size_t i = repeated.size(); whole && i + 1 < rows.size(); ++i) {
        auto atom = std::make_shared<Atom>(*rows[i]);
        atom->glue = Glue::hard;
        rows[i] = std::move(atom);
    }
    append(std::move(rows), style_.gap * 1.4, glue);
}

}  // namespace evenfall::ui
