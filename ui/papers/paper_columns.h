// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "papers/document.h"
#include "papers/paper_style.h"

// How wide the columns of a paper have to be, so that no word breaks inside, and how wide they are.

namespace evenfall::ui {

inline constexpr double kCellPad = 4;  ///< points around what stands in a cell of a table

inline constexpr double kFigure = 1.25;  ///< height of a drawn tablet, in sizes of type

/// The side of a box to tick.
double tick_box_side(const PaperStyle& style);

/// The least width of each column of a table: its longest word, its widest drawn piece, a box before them.
std::vector<double> least_column_widths(const papers::Table& table, const PaperStyle& style);

/// Widths that add up to `width`, by the columns' shares, none below its least. Empty where there is no room
/// for all of them.
std::vector<double> shared_widths(double width, const std::vector<double>& least,
                                  const std::vector<double>& shares);

/// The widths of a table's columns: what begins a row on one line, or but for its last word, where
/// the others leave room for it. Empty where there is no room for all columns.
std::vector<double> table_widths(const papers::Table& table, const PaperStyle& style, double width);

}  // namespace evenfall::ui
