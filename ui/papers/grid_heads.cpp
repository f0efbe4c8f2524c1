// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/grid_heads.h"

#include <numeric>

#include "papers/paper_columns.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kLeastToWrite = 30;       // points of a column that is filled in by hand
constexpr double kNotes = 30 / 25.4 * 72;  // points of a column for notes
constexpr double kShort = 0.22;            // of the width: what begins a row and is shorter has its line
constexpr double kMostBefore = 0.25;       // of the width, for what stands before a row
constexpr double kMostOnOneLine = 0.32;    // the same where that keeps it on one line
constexpr double kMostWord = 0.4;          // the same for a word, which breaks where it is longer
constexpr double kMostHead = 0.55;         // of the width, for the height of heads

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
    word = std::min(word, kMostWord * width);
    if (widest < kShort * width) return widest + 2 * kGridSide + 1;
    return std::max(word, std::min(widest * (one_line ? 1 : 0.7),
                                   width * (one_line ? kMostOnOneLine : kMostBefore))) +
           2 * kGridSide + 1;
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
    int lines = 2;          ///< of a head that is turned
    bool one_line = false;  ///< what stands before a row takes one
    double notes = kNotes;  ///< the least room for notes
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
        least.push_back(std::max(to_write, longest_word(head_of(column), face) + 2 * kGridSide + 1));
        if (first)
            least.back() = std::max(least.back(), least_first(grid, width, text_size, manner.one_line));
        const double across = std::max(turned_texts.back().height() + 2 * kGridPad, kLeastToWrite);
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
                            longest_word(head_of(grid.columns[i]), face) > heads.widths[i] - 2 * kGridSide);
    for (std::size_t i = 0; i < least.size(); ++i) {
        const double inner = heads.widths[i] - 2 * kGridSide;
        const std::string words = head_of(grid.columns[i]);
        const bool breaks = longest_word(words, face) > inner;
        const bool turns = turned[i] && (breaks || (is_dose_time(grid.columns[i]) && dose_breaks));
        heads.each.push_back({turns ? turned_texts[i] : PaperText(paper_string(words), face, inner), turns});
        const PaperText& text = heads.each.back().text;
        heads.height = std::max(heads.height, (turns ? text.natural_width() : text.height()) + 2 * kGridPad);
    }
    // Above that they leave no page for their rows.
    return heads.height > kMostHead * width ? Heads{} : heads;
}

}  // namespace

Heads heads_with_room(const Grid& grid, double width, const PaperText::Face& face, double text_size,
                      bool tight) {
    // What begins a row takes two lines before a head is turned. In tight rows that one line makes lower,
    // heads are turned first, also on one long line.
    Heads best = heads_in({2, tight}, grid, width, face, text_size);
    if (best.turned() > 0 || best.widths.empty())
        if (Heads upright = heads_in({2, false}, grid, width, face, text_size);
            !upright.widths.empty() && (!tight || upright.turned() == 0))
            best = std::move(upright);
    for (const Manner& manner :
         {Manner{1, tight}, Manner{2, false}, Manner{1, false}, Manner{1, false, kLeastToWrite}})
        if (best.widths.empty()) best = heads_in(manner, grid, width, face, text_size);
    return best;
}

Heads equal_heads(const Grid& grid, double width, const PaperText::Face& face) {
    Heads heads;
    heads.widths.assign(grid.columns.size(), width / static_cast<double>(grid.columns.size()));
    for (const Column& column : grid.columns)
        heads.each.push_back(
            {PaperText(paper_string(head_of(column)), face, heads.widths.front() - 2 * kGridSide)});
    for (const Head& head : heads.each)
        heads.height = std::max(heads.height, head.text.height() + 2 * kGridPad);
    return heads;
}

std::vector<Grid> with_rows_for_columns(const Grid& grid, double width, const PaperText::Face& face,
                                        double text_size) {
    const std::size_t rows = grid.rows.size();
    for (std::size_t parts = 1; parts <= rows; ++parts) {
        const std::size_t most = (rows + parts - 1) / parts;
        std::vector<Grid> turned;
        bool fit = true;
        for (std::size_t begin = 0; begin < rows; begin += most) {
            Grid part;
            part.columns.push_back({});
            for (std::size_t i = begin; i < std::min(rows, begin + most); ++i)
                part.columns.push_back({grid.rows[i], {}});
            for (std::size_t i = 1; i < grid.columns.size(); ++i)
                part.rows.push_back(head_of(grid.columns[i]));
            const Heads heads = heads_in({1, true}, part, width, face, text_size);
            fit = fit && !heads.widths.empty() && heads.turned() == 0;
            turned.push_back(std::move(part));
        }
        if (fit) return turned;
    }
    return {};
}

}  // namespace evenfall::ui
