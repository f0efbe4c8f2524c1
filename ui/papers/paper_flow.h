// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointF>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

class QPainter;

namespace evenfall::ui {

/// How an atom hangs together with the one that follows.
enum class Glue {
    none,
    soft,  ///< on one page where the chain fits on a page at all
    hard   ///< also where the whole chain is higher than a page; given up only where these alone are
};

/// The smallest thing that a page break never divides. Heights in points.
struct Atom {
    double height = 0;
    std::function<void(QPainter&, const QPointF&)> paint;
    Glue glue = Glue::none;
    bool begins_page = false;
    bool row = false;  ///< one of many rows, a day of a schedule: a page without any is of little use
    /// Painted again where a page begins with this atom: the heads of its table, "step 1 goes on".
    std::vector<std::shared_ptr<const Atom>> repeated;
};

using Atoms = std::vector<std::shared_ptr<const Atom>>;

/// An atom and how far down its page it stands.
struct PlacedAtom {
    std::shared_ptr<const Atom> atom;
    double top = 0;
};
using PaperPage = std::vector<PlacedAtom>;

/// Sets atoms on pages of this height; rows begin on a page that has none so far, also where all of their
/// chain would fit on the next one. Nothing where one hard chain with its repeated heads is higher than a
/// page.
std::optional<std::vector<PaperPage>> flow(const Atoms& atoms, double height);

/// The same, part by part (a part begins a page): where the last page of a part would be nearly empty, its
/// pages are filled evenly instead, so that no sheet hangs alone with a line or two.
std::optional<std::vector<PaperPage>> flow_evenly(const Atoms& atoms, double height);

/// How many pages hold no row, of the parts that have rows.
std::size_t pages_without_row(const std::vector<PaperPage>& pages);

/// How far down a page something stands.
double filled_height(const PaperPage& page);

/// Empty room.
std::shared_ptr<const Atom> space(double height, Glue glue = Glue::none);

}  // namespace evenfall::ui
