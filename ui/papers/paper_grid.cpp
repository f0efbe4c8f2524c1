// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>
#include <numeric>

#include "papers/paper_blocks.h"
#include "papers/paper_columns.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kPad = 2;                 // above and below words
constexpr double kSide = 4;                // beside them
constexpr double kLine = 1.27;             // of the size of type
constexpr double kTightLines = 0.75;       // of the room to write in, where a page would not hold the grid
constexpr double kLeastToWrite = 30;       // points of a column that is filled in by hand
constexpr double kNotes = 30 / 25.4 * 72;  // points of a column for notes
constexpr double kShort = 0.22;            // of the width: what begins a row and is shorter has its line
constexpr double kMostBefore = 0.25;       // of the width, for what stands before a row
constexpr double kMostOnOneLine = 0.32;    // the same where that keeps it on one line
constexpr double kMostToAsk = 0.62;        // of the width, for a question beside its answer
constexpr double kSmallBox = 0.4;          // of a page's height: a grid below it stands on one page

/// The head of a column, upright or turned by a quarter.
struct Head {
    PaperText text;
    bool turned = false;
};

/// The heads of a grid, set into its columns.
struct Heads {
    std::vector<Head> each;
    std::vector<double> widths;
    double height = 0;

    auto turned() const { return std::ranges::count_if(each, &Head::turned); }
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
    if (widest < kShort * width) return widest + 2 * kSide + 1;
    return std::max(word, std::min(widest * (one_line ? 1 : 0.7),
                                   width * (one_line ? kMostOnOneLine : kMostBefore))) +
           2 * kSide + 1;
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

/// How heads are turned and what room the columns keep.
struct Manner {
    int lines = 2;                    ///< of a head that is turned
    bool one_line = false;            ///< what stands before a row takes one
    double notes = kNotes;            ///< the least room for notes
    double to_write = kLeastToWrite;  ///< the least room of a column whose head is turned
};

/// Whether a time is written into a column: such heads are alike, all upright or all turned.
bool is_dose_time(const Column& column) {
    return !column.note.empty();
}

/// As few heads turned as let every other one stand upright without a broken word, those that win most room
/// first and dose times last. No widths where there is no room even so.
Heads heads_in(const Manner& manner, const Grid& grid, double width, const PaperText::Face& face,
               double text_size) {
    std::vector<double> least;
    std::vector<double> turned_least;
    std::vector<PaperText> turned_texts;
    for (const Column& column : grid.columns) {
        const bool first = least.empty();
        const double to_write = column.spare ? manner.notes : 0;
        turned_texts.push_back(turned_head(column, face, manner.lines));
        least.push_back(std::max(to_write, longest_word(head_of(column), face) + 2 * kSide + 1));
        if (first)
            least.back() = std::max(least.back(), least_first(grid, width, text_size, manner.one_line));
        const double across = std::max(turned_texts.back().height() + 2 * kPad, manner.to_write);
        turned_least.push_back(first ? least.back() : std::min(least.back(), std::max(across, to_write)));
    }
    std::vector<bool> turned(least.size(), false);
    while (std::accumulate(least.begin(), least.end(), 0.0) > width) {
        std::size_t most = 0;
        for (std::size_t i = 1; i < least.size(); ++i)
            if (!is_dose_time(grid.columns[i]) &&
                least[i] - turned_least[i] > least[most] - turned_least[most])
                most = i;
        const bool all_others = least[most] <= turned_least[most];
        bool any = false;
        for (std::size_t i = 1; i < least.size(); ++i) {
            if (all_others ? !is_dose_time(grid.columns[i]) : i != most) continue;
            any = any || least[i] > turned_least[i];
            turned[i] = true;
            least[i] = turned_least[i];
        }
        if (!any) return {};
    }
    Heads heads;
    heads.widths = shared_widths(width, least, shares_of(grid));
    bool dose_breaks = false;
    for (std::size_t i = 0; i < least.size(); ++i)
        dose_breaks =
            dose_breaks || (is_dose_time(grid.columns[i]) &&
                            longest_word(head_of(grid.columns[i]), face) > heads.widths[i] - 2 * kSide);
    for (std::size_t i = 0; i < least.size(); ++i) {
        const double inner = heads.widths[i] - 2 * kSide;
        const std::string words = head_of(grid.columns[i]);
        const bool breaks = longest_word(words, face) > inner;
        const bool turns = turned[i] && (breaks || (is_dose_time(grid.columns[i]) && dose_breaks));
        heads.each.push_back({turns ? turned_texts[i] : PaperText(paper_string(words), face, inner), turns});
        const PaperText& text = heads.each.back().text;
        heads.height = std::max(heads.height, (turns ? text.natural_width() : text.height()) + 2 * kPad);
    }
    return heads;
}

/// The heads of a grid, none of them turned where that can be helped; they are never set smaller.
Heads heads_of(const Grid& grid, double width, const PaperText::Face& face, double text_size, bool tight) {
    // What begins a row takes two lines before a head is turned. In tight rows that one line makes lower,
    // heads are turned first, also on one long line.
    Heads best = heads_in({2, tight}, grid, width, face, text_size);
    if (best.turned() > 0 || best.widths.empty())
        if (Heads upright = heads_in({2, false}, grid, width, face, text_size);
            !upright.widths.empty() && (!tight || upright.turned() == 0))
            best = std::move(upright);
    for (const Manner& manner : {Manner{1, tight}, Manner{2, false}, Manner{1, false},
                                 Manner{1, false, kNotes, 0}, Manner{1, false, kLeastToWrite, 0}})
        if (best.widths.empty()) best = heads_in(manner, grid, width, face, text_size);
    if (best.widths.empty()) {
        best.widths.assign(grid.columns.size(), width / static_cast<double>(grid.columns.size()));
        for (const Column& column : grid.columns)
            best.each.push_back(
                {PaperText(paper_string(head_of(column)), face, best.widths.front() - 2 * kSide)});
        for (const Head& head : best.each) best.height = std::max(best.height, head.text.height() + 2 * kPad);
    }
    return best;
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
    if (!cells.empty()) cells.front().paint(painter, at + QPointF(kSide, kPad));
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
            painter.translate(box.left() + (box.width() - text.height()) / 2, box.bottom() - kPad);
            painter.rotate(-90);
            text.paint(painter, {0, 0});
        } else {  // all heads end above their rows
            text.paint(painter, {box.left() + kSide, box.bottom() - kPad - text.height()});
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
        while (wanted < width * kMostToAsk && PaperText(words, face, wanted - 2 * kSide).lines().size() > 2)
            wanted += face.size;
    }
    wanted = std::min(wanted, std::max(width * kMostToAsk, widths.front()));
    return {wanted, width - wanted};
}

}  // namespace

void PaperSetter::set_content(const Grid& grid, Glue glue) {
    Heads heads = heads_of(grid, width_, bold(), style_.text, style_.tight);
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
        const PaperText name = text(row, plain(), heads.widths.front() - 2 * kSide);
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
