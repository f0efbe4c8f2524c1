// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "papers/document.h"
#include "papers/paper_flow.h"
#include "papers/paper_style.h"

// What stands above the rows of a table: the titles of its columns, and the band of a step.

namespace evenfall::ui {

/// Points of white above and below what stands in a row.
double row_padding(const PaperStyle& style);

/// The titles of a table's columns, white on black, each with its note under it.
std::shared_ptr<const Atom> column_heads(const papers::Table& table, const std::vector<double>& widths,
                                         const PaperStyle& style);

/// What begins with a group, the first line in heavy type.
std::shared_ptr<Atom> band_atom(const std::vector<std::string>& lines, const PaperStyle& style, double width);

}  // namespace evenfall::ui
