// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>
#include <utility>

#include "papers/paper_blocks.h"
#include "papers/paper_cell.h"
#include "papers/paper_columns.h"
#include "papers/table_heads.h"
#include "rules/texts.h"

namespace evenfall::ui {
namespace {

using namespace papers;

constexpr double kPad = kCellPad;
constexpr double kStackedTitle = 0.30;  // of the width, where dose times stand under each other
constexpr double kEdges = 6.5;          // of a page, for its head and its foot, in sizes of small type
constexpr double kUnderHeading = 2;  // the same for a heading over what begins a table, in its sizes of type
constexpr double kLeastSpare = 4;    // of a column to write in, in sizes of type
constexpr double kMuchLower = 0.75;  // of the height of columns: what one under the other has to win
constexpr double kLowerLead = 0.85;  // the same for a row that leads others and is repeated on each page
constexpr double kLargeLower = 0.9;  // the same in large print, whose columns are narrow and whose pages many

double height_of(const Atoms& atoms) {
    double height = 0;
    for (const auto& atom : atoms) height += atom->height;
    return height;
}

class TableSetter {
  public:
    /// Without widths of its columns, one dose time stands under the other.
    TableSetter(const Table& table, const PaperStyle& style, double width, std::vector<double> widths)
        : table_(table),
          style_(style),
          width_(width),
          box_(tick_box_side(style)),
          drop_(row_padding(style)),
          widths_(std::move(widths)),
          stacked_(widths_.empty()),
          all_drawn_(all_fit_beside()) {}

    Atoms set() {
        if (!stacked_) head_ = column_heads(table_, widths_, style_);
        for (const Group& group : table_.groups) set_group(group);
        return std::move(atoms_);
    }

  private:
    /// The same, under these heads where a page begins with it.
    static std::shared_ptr<const Atom> repeating(const Atom& atom, const Atoms& heads) {
        auto with = std::make_shared<Atom>(atom);
        with->repeated = heads;
        return with;
    }

    /// What ends here stands on the page of what follows.
    void hold_last() {
        if (atoms_.empty()) return;
        auto last = std::make_shared<Atom>(*atoms_.back());
        last->glue = Glue::hard;
        atoms_.back() = std::move(last);
    }

    void set_group(const Group& group) {
        Atoms heads;
        if (head_) heads.push_back(head_);
        Atoms again = heads;
        if (!group.continued.empty()) again.push_back(band_atom({group.continued}, style_, width_));
        Atoms lead = group.lead.empty() ? Atoms{} : lead_atoms(group.lead);
        if (!lead.empty()) lead.front() = repeating(*lead.front(), again);
        again.insert(again.end(), lead.begin(), lead.end());
        if (&group == &table_.groups.front() && head_) atoms_.push_back(head_);
        if (group.rows.empty()) hold_last();
        if (!group.band.empty()) {
            auto band = band_atom(group.band, style_, width_);
            band->glue = group.rows.empty() ? Glue::none : Glue::hard;
            if (&group != &table_.groups.front()) band->repeated = heads;
            atoms_.push_back(band);
        }
        atoms_.insert(atoms_.end(), lead.begin(), lead.end());
        const bool draws = lead.empty() || all_drawn_;
        for (const Row& row : group.rows) {
            const bool last = &row == &group.rows.back();
            const bool leads = group.band.empty() && &row == &group.rows.front();
            const Atoms& repeat = leads ? (&group == &table_.groups.front() ? Atoms{} : heads) : again;
            if (stacked_)
                set_stacked(row, repeat, last, draws);
            else
                set_row(row, repeat, last, draws);
            if (group.rows.size() > 1) mark_row();
        }
    }

    /// What was set last is one of the rows for which the pages are there.
    void mark_row() {
        auto row = std::make_shared<Atom>(*atoms_.back());
        row->row = true;
        atoms_.back() = std::move(row);
    }

    double room_of(std::size_t column, const Cell& cell) const {
        const double indent = box_ + kPad;
        if (stacked_) return width_ - width_ * kStackedTitle - indent - 2 * kPad;
        return widths_[column] - 2 * kPad - (cell.tick_box ? indent : 0);
    }

    /// Whether every day under a leading row has room for its drawings beside the words: then all are drawn,
    /// else none. What is drawn in one step and not in the next would look like other tablets.
    bool all_fit_beside() const {
        for (const Group& group : table_.groups)
            if (!group.lead.empty() &&
                !std::ranges::all_of(group.rows, [&](const Row& row) { return fits_beside(row); }))
                return false;
        return true;
    }

    bool fits_beside(const Row& row) const {
        for (std::size_t i = 0; i < row.size(); ++i)
            for (const DoseInCell& dose : row[i].doses)
                if (!dose.pieces.empty() && !CellSetter(style_, room_of(i, row[i])).fits_beside(dose))
                    return false;
        return true;
    }

    /// What is set in between, apart from the rest.
    Atoms apart(const std::function<void()>& set) {
        Atoms kept = std::move(atoms_);
        atoms_.clear();
        set();
        return std::exchange(atoms_, std::move(kept));
    }

    /// The leading row of a group, on grey, held to what follows it: in the columns, or one dose time under
    /// the other where that is lower.
    Atoms lead_atoms(const Row& row) {
        Atoms lead = apart([&] { set_stacked(row, {}, false, true); });
        if (!stacked_) {
            Atoms beside = apart([&] { set_row(row, {}, false, true); });
            if (height_of(lead) > kLowerLead * height_of(beside)) lead = std::move(beside);
        }
        for (auto& each : lead) {
            auto atom = std::make_shared<Atom>(*each);
            atom->glue = Glue::hard;
            atom->paint = [paint = each->paint, height = each->height, width = width_](QPainter& painter,
                                                                                       const QPointF& at) {
                painter.fillRect(QRectF(at, QSizeF(width, height)), kPaperFill);
                if (paint) paint(painter, at);
            };
            each = std::move(atom);
        }
        return lead;
    }

    void set_row(const Row& row, const Atoms& repeat, bool last, bool draws) {
        std::vector<std::vector<CellElement>> cells;
        std::vector<std::vector<double>> boxes;
        std::vector<std::vector<CellSpan>> changes;
        double height = 0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const double indent = row[i].tick_box ? box_ + kPad : 0;
            CellSetter setter(style_, widths_[i] - 2 * kPad - indent, draws);
            setter.add_cell(row[i]);
            height = std::max(height, setter.height());
            boxes.push_back(setter.box_tops());
            changes.push_back(setter.changes());
            cells.push_back(std::move(setter).take());
        }
        auto atom = std::make_shared<Atom>();
        atom->height = height + 2 * drop_;
        atom->glue = last ? Glue::none : Glue::soft;
        atom->repeated = repeat;
        atom->paint = [cells, boxes, changes, row, widths = widths_, columns = table_.columns, box = box_,
                       height = atom->height, width = width_,
                       drop = drop_](QPainter& painter, const QPointF& at) {
            double x = at.x();
            for (std::size_t i = 0; i < cells.size(); ++i) {
                const QPointF corner(x + kPad, at.y() + drop);
                painter.setPen(QPen(kPaperRule, columns[i].sum ? 1.6 : 0.5));
                if (i > 0) painter.drawLine(QPointF(x, at.y()), QPointF(x, at.y() + height));
                paint_change_bars(painter, corner, changes[i]);
                paint_tick_boxes(painter, corner + QPointF(0, 1), boxes[i], box);
                paint_elements(painter, cells[i], corner + QPointF(row[i].tick_box ? box + kPad : 0, 0));
                x += widths[i];
            }
            painter.setPen(QPen(kPaperRule, 0.7));
            painter.drawLine(at + QPointF(0, height), at + QPointF(width, height));
        };
        atoms_.push_back(atom);
    }

    /// One line of a stacked row: the column's title on the left, its cell on the right.
    std::shared_ptr<Atom> stacked_line(const Column& column, const Cell& cell, bool draws) const {
        const double left_width = width_ * kStackedTitle;
        const double indent = box_ + kPad;
        CellSetter title(style_, left_width - 3 * kPad);
        const bool clock = !column.note.empty() && !column.sum;
        title.add_text(clock ? column.title + " " + column.note : column.title, column.sum);
        CellSetter setter(style_, width_ - left_width - indent - 2 * kPad, draws);
        if (column.sum)
            for (const std::string& line : cell.lines)
                setter.add_text(&line == &cell.lines.back() ? line + ", " + column.note : line, false);
        else
            setter.add_cell(cell);
        auto atom = std::make_shared<Atom>();
        atom->height = std::max(title.height(), setter.height()) + kPad;
        atom->glue = Glue::soft;
        const std::vector<double> boxes = setter.box_tops();
        const std::vector<CellSpan> changes = setter.changes();
        atom->paint = [title = std::move(title).take(), cell = std::move(setter).take(), left_width, indent,
                       box = box_, boxes, changes, width = width_](QPainter& painter, const QPointF& at) {
            painter.setPen(QPen(kPaperRule, 0.4));
            painter.drawLine(at + QPointF(kPad, 0), at + QPointF(width, 0));
            paint_elements(painter, title, at + QPointF(2 * kPad, kPad / 2));
            paint_change_bars(painter, at + QPointF(left_width, kPad / 2), changes);
            paint_tick_boxes(painter, at + QPointF(left_width, kPad / 2 + 1), boxes, box);
            paint_elements(painter, cell, at + QPointF(left_width + indent, kPad / 2));
        };
        return atom;
    }

    void set_stacked(const Row& row, const Atoms& repeat, bool last, bool draws) {
        std::string title = row.front().strong.empty() ? std::string() : row.front().strong.front();
        for (const std::string& line : row.front().lines) title += (title.empty() ? "" : " · ") + line;
        const auto head_line = [&](const std::string& words, Glue glue) {
            const PaperText set(paper_string(words), {style_.text, true, kPaperInk}, width_);
            auto atom = std::make_shared<Atom>();
            atom->height = set.height() + kPad;
            atom->glue = glue;
            atom->paint = [set, width = width_](QPainter& painter, const QPointF& at) {
                painter.setPen(QPen(kPaperInk, 1));
                painter.drawLine(at, at + QPointF(width, 0));
                set.paint(painter, at + QPointF(0, kPad / 2));
            };
            return atom;
        };
        auto first = head_line(title, Glue::hard);
        first->repeated = repeat;
        Atoms again = repeat;
        again.push_back(
            head_line(table_.goes_on.empty() ? title : fill(table_.goes_on, {{"row", title}}), Glue::hard));
        atoms_.push_back(first);
        std::vector<std::shared_ptr<Atom>> lines;
        double height = first->height;
        for (std::size_t i = 1; i < row.size(); ++i) {
            if (row[i] == Cell{}) continue;
            lines.push_back(stacked_line(table_.columns[i], row[i], draws));
            lines.back()->repeated = again;
            height += lines.back()->height;
        }
        // A day stays whole unless it alone is higher than a page.
        double room = style_.page.height() - 2 * style_.margin - kEdges * style_.small;
        if (repeat.empty()) room -= kUnderHeading * style_.part;
        const bool whole = height + height_of(repeat) < room;
        for (const auto& line : lines) {
            line->glue = whole ? Glue::hard : Glue::soft;
            atoms_.push_back(line);
        }
        atoms_.push_back(space(kPad, last ? Glue::none : Glue::soft));
    }

    const Table& table_;
    const PaperStyle& style_;
    double width_;
    double box_;
    double drop_;  ///< white above and below what stands in a row
    std::vector<double> widths_;
    bool stacked_;
    bool all_drawn_;  ///< in the rows under a leading row
    std::shared_ptr<const Atom> head_;
    Atoms atoms_;
};

/// The table as it is, or without its column for notes where that would be too narrow to write in.
Table without_narrow_spare(const Table& table, const PaperStyle& style, double width) {
    const auto spare = std::ranges::find_if(table.columns, &Column::spare);
    if (spare == table.columns.end()) return table;
    const auto at = spare - table.columns.begin();
    const std::vector<double> widths = table_widths(table, style, width);
    if (!widths.empty() && widths[static_cast<std::size_t>(at)] >= kLeastSpare * style.text) return table;
    Table without = table;
    without.columns.erase(without.columns.begin() + at);
    const auto drop = [at](Row& row) {
        if (at < std::ssize(row)) row.erase(row.begin() + at);
    };
    for (Group& group : without.groups) {
        drop(group.lead);
        std::ranges::for_each(group.rows, drop);
    }
    return without;
}

}  // namespace

Atoms table_atoms(const Table& table, const PaperStyle& style, double width) {
    const Table shown = without_narrow_spare(table, style, width);
    Atoms stacked = TableSetter(shown, style, width, {}).set();
    std::vector<double> widths = table_widths(shown, style, width);
    if (widths.empty()) return stacked;
    Atoms beside = TableSetter(shown, style, width, std::move(widths)).set();
    return height_of(stacked) < (style.large ? kLargeLower : kMuchLower) * height_of(beside) ? stacked
                                                                                             : beside;
}

}  // namespace evenfall::ui
