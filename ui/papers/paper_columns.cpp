// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_columns.h"

#include <algorithm>
#include <numeric>

#include "drawing/pieces.h"
#include "papers/paper_text.h"

namespace evenfall::ui {

using namespace papers;

namespace {

double widest(const std::vector<std::string>& lines, const PaperText::Face& face, bool phrases = false) {
    double width = 0;
    for (const std::string& line : lines)
        width = std::max(width, phrases ? longest_phrase(line, face) : longest_word(line, face));
    return width;
}

double least_of(const Cell& cell, const PaperStyle& style, bool led) {
    const PaperText::Face plain{style.text, false, kPaperInk};
    const PaperText::Face bold{style.text, true, kPaperInk};
    // Large print tears no date in a column: one thing under the other is read more easily then. The days of
    // a step, which a row leads, are too many for that.
    const bool phrases = style.large && !led;
    double width = std::max(widest(cell.strong, bold, phrases), widest(cell.lines, plain, phrases));
    for (const DoseInCell& dose : cell.doses) {
        width = std::max(
            {width, widest(dose.lines, dose.was.empty() ? plain : bold), longest_word(dose.was, plain)});
        PieceLayout layout;
        layout.unit = style.text * kFigure;
        layout.strengths = dose.names_strengths;
        if (!led) width = std::max(width, widest_figure(dose.pieces, layout));
    }
    return width + (cell.tick_box ? tick_box_side(style) + kCellPad : 0);
}

void widen(std::vector<double>& least, const Row& row, const PaperStyle& style, bool led) {
    for (std::size_t i = 0; i < row.size() && i < least.size(); ++i)
        least[i] = std::max(least[i], least_of(row[i], style, led) + 2 * kCellPad + 1);
}

/// The widest of what begins the rows, each without so many of its last words.
double width_of_firsts(const Table& table, const PaperStyle& style, int without) {
    const PaperText::Face bold{style.text, true, kPaperInk};
    double widest = 0;
    for (const Group& group : table.groups)
        for (const Row& row : group.rows)
            for (const std::string& line : row.front().strong) {
                QString words = paper_string(line);
                for (int i = 0; i < without; ++i) words.truncate(words.lastIndexOf(u' '));
                widest = std::max(widest, PaperText(words, bold, 1e5).natural_width());
            }
    return widest + 2 * kCellPad + 1;
}

}  // namespace

double tick_box_side(const PaperStyle& style) {
    return style.text * 1.05;
}

std::vector<double> least_column_widths(const Table& table, const PaperStyle& style) {
    const PaperText::Face plain{style.text, false, kPaperInk};
    const PaperText::Face bold{style.text, true, kPaperInk};
    std::vector<double> least;
    for (const Column& column : table.columns)
        least.push_back(std::max(longest_word(column.title, bold), longest_word(column.note, plain)) +
                        2 * kCellPad + 1);
    for (const Group& group : table.groups) {
        widen(least, group.lead, style, false);
        for (const Row& row : group.rows) widen(least, row, style, !group.lead.empty());
    }
    return least;
}

std::vector<double> shared_widths(double width, const std::vector<double>& least,
                                  const std::vector<double>& shares) {
    if (std::accumulate(least.begin(), least.end(), 0.0) > width) return {};
    // A column that its share would make too narrow takes its least; the others share what is left.
    std::vector<bool> fixed(least.size(), false);
    while (true) {
        double room = width;
        double open = 0;
        for (std::size_t i = 0; i < least.size(); ++i)
            (fixed[i] ? room : open) += fixed[i] ? -least[i] : shares[i];
        std::vector<double> widths;
        bool all_wide = true;
        for (std::size_t i = 0; i < least.size(); ++i) {
            widths.push_back(fixed[i] ? least[i] : room * shares[i] / open);
            if (fixed[i] || widths[i] >= least[i]) continue;
            fixed[i] = true;
            all_wide = false;
        }
        if (all_wide) return widths;
    }
}

std::vector<double> table_widths(const Table& table, const PaperStyle& style, double width) {
    std::vector<double> shares;
    for (const Column& column : table.columns) shares.push_back(column.share);
    const std::vector<double> least = least_column_widths(table, style);
    for (const int without : {0, 1}) {
        std::vector<double> wide = least;
        wide.front() = std::max(wide.front(), width_of_firsts(table, style, without));
        if (std::vector<double> widths = shared_widths(width, wide, shares); !widths.empty()) return widths;
    }
    return shared_widths(width, least, shares);
}

}  // namespace evenfall::ui
