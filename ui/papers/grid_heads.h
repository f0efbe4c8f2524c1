// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <vector>

#include "papers/document.h"
#include "papers/paper_text.h"

// The heads of a grid to write in: which are turned, and how wide their columns are.

namespace evenfall::ui {

inline constexpr double kGridPad = 2;   ///< points above and below words
inline constexpr double kGridSide = 4;  ///< points beside them

/// The head of a column, upright or turned by a quarter.
struct Head {
    PaperText text;
    bool turned = false;
};

/// The heads of a grid, set into its columns. No widths where there is no room for them.
struct Heads {
    std::vector<Head> each;
    std::vector<double> widths;
    double height = 0;

    auto turned() const { return std::ranges::count_if(each, &Head::turned); }
};

/// None of the heads turned where that can be helped; they are never set smaller, and no word is broken.
/// `text_size`: of what begins a row. `tight`: rows are low, and what begins them has to be so too.
Heads heads_with_room(const papers::Grid& grid, double width, const PaperText::Face& face, double text_size,
                      bool tight);

/// All columns alike, whatever breaks.
Heads equal_heads(const papers::Grid& grid, double width, const PaperText::Face& face);

/// A grid of more columns than a page has room for, with a row for each column and a column for each row, in
/// as few parts as let every head stand upright. Empty where there is no room even so.
std::vector<papers::Grid> with_rows_for_columns(const papers::Grid& grid, double width,
                                                const PaperText::Face& face, double text_size);

}  // namespace evenfall::ui
