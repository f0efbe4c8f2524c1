// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>
#include <utility>

#include "drawing/pieces.h"
#include "papers/paper_blocks.h"

namespace evenfall::ui {
namespace {

using namespace papers;

constexpr double kPad = 4;
constexpr double kNarrowest = 8.6;  // of a dose column, in sizes of type: below it words would break apart
constexpr double kTwiceAsWide = 1.8;
constexpr double kMostOfAPage = 0.8;

/// Something drawn in a cell, one under the other.
struct Element {
    double height = 0;
    std::function<void(QPainter&, const QPointF&)> paint;
};

class CellSetter {
  public:
    CellSetter(const PaperStyle& style, double width) : style_(style), width_(width) {}

    void add_text(const std::string& text, bool bold) {
        const PaperText set(paper_string(text), {style_.text, bold, kPaperInk}, width_);
        add(set.height(), [set](QPainter& painter, const QPointF& at) { set.paint(painter, at); });
    }

    void add_pieces(const std::vector<Piece>& pieces) {
        if (pieces.empty()) return;
        PieceLayout layout;
        layout.unit = style_.text * 1.25;
        layout.gap = style_.text * 0.22;
        layout.line_gap = style_.text * 0.25;
        layout.most_width = width_;
        add(pieces_size(pieces, layout).height() + 1.5,
            [pieces, layout](QPainter& painter, const QPointF& at) {
                PieceInk ink;
                ink.taken = kPaperInk;
                ink.rest = kPaperRule;
                paint_pieces(painter, at, pieces, layout, ink);
            });
    }

    /// What a dose was before: heavy words in a frame, so that they stand out without colour.
    void add_was(const std::string& text) {
        if (text.empty()) return;
        const PaperText set(paper_string(text), {style_.text, true, kPaperInk}, width_ - 8);
        add(set.height() + 5, [set](QPainter& painter, const QPointF& at) {
            painter.setPen(QPen(kPaperInk, 1.1));
            painter.setBrush(Qt::white);
            painter.drawRect(
                QRectF(at + QPointF(0.5, 1.5), QSizeF(set.natural_width() + 7, set.height() + 2)));
            set.paint(painter, at + QPointF(4, 2.5));
        });
    }

    /// Pieces with their words beside them, where both fit on one line.
    bool add_beside(const DoseInCell& dose) {
        if (dose.pieces.empty() || dose.lines.size() != 1) return false;
        PieceLayout layout;
        layout.unit = style_.text * 1.25;
        layout.gap = style_.text * 0.22;
        const QSizeF size = pieces_size(dose.pieces, layout);
        const double left = size.width() + style_.text * 0.7;
        const PaperText set(paper_string(dose.lines.front()), {style_.text, false, kPaperInk}, 1e5);
        if (left + set.natural_width() > width_) return false;
        const double height = std::max(size.height(), set.height());
        add(height + 1.5, [=, pieces = dose.pieces](QPainter& painter, const QPointF& at) {
            paint_pieces(painter, at, pieces, layout, {kPaperInk, kPaperRule, Qt::white});
            set.paint(painter, at + QPointF(left, (height - set.height()) / 2));
        });
        return true;
    }

    void add_cell(const Cell& cell) {
        for (const std::string& line : cell.strong) add_text(line, true);
        for (const DoseInCell& dose : cell.doses) {
            if (dose.tick_box) box_tops_.push_back(height_);
            if (!add_beside(dose)) {
                add_pieces(dose.pieces);
                for (const std::string& line : dose.lines) add_text(line, false);
            }
            add_was(dose.was);
        }
        for (const std::string& line : cell.lines) add_text(line, false);
        if (cell.tick_box && box_tops_.empty()) box_tops_.push_back(0);
    }

    /// Where the boxes to tick begin, below the top of the cell: one for each dose.
    const std::vector<double>& box_tops() const { return box_tops_; }

    double height() const { return height_; }
    std::vector<Element> take() && { return std::move(elements_); }

  private:
    void add(double height, std::function<void(QPainter&, const QPointF&)> paint) {
        elements_.push_back({height, std::move(paint)});
        height_ += height;
    }

    const PaperStyle& style_;
    double width_;
    double height_ = 0;
    std::vector<Element> elements_;
    std::vector<double> box_tops_;
};

void paint_all(QPainter& painter, const std::vector<Element>& elements, QPointF at) {
    for (const Element& element : elements) {
        element.paint(painter, at);
        at.ry() += element.height;
    }
}

void paint_tick_boxes(QPainter& painter, const QPointF& at, const std::vector<double>& tops, double size) {
    for (const double top : tops) {
        painter.setPen(QPen(kPaperInk, 1));
        painter.setBrush(Qt::white);
        painter.drawRect(QRectF(at + QPointF(0, top), QSizeF(size, size)));
    }
}

class TableSetter {
  public:
    TableSetter(const Table& table, const PaperStyle& style, double width)
        : table_(table), style_(style), width_(width), box_(style.text * 1.05) {
        double shares = 0;
        for (const Column& column : table.columns) shares += column.share;
        for (const Column& column : table.columns) widths_.push_back(width * column.share / shares);
        keep_heads_whole();
    }

    Atoms set() {
        stacked_ = is_narrow();
        if (!stacked_) head_ = head_atom();
        for (const Group& group : table_.groups) set_group(group);
        return std::move(atoms_);
    }

  private:
    /// Widens a column whose heading would break inside a word, at the cost of the widest.
    void keep_heads_whole() {
        for (std::size_t i = 0; i < widths_.size(); ++i) {
            const double least =
                longest_word(table_.columns[i].title, {style_.text, true, Qt::white}) + 2 * kPad + 1;
            const auto widest = std::ranges::max_element(widths_);
            if (widths_[i] >= least || *widest - (least - widths_[i]) < least) continue;
            *widest -= least - widths_[i];
            widths_[i] = least;
        }
    }

    bool has_ticks() const {
        for (const Group& group : table_.groups)
            for (const Row& row : group.rows)
                for (const Cell& cell : row)
                    if (cell.tick_box) return true;
        return false;
    }

    bool is_narrow() const {
        for (std::size_t i = 0; i < table_.columns.size(); ++i)
            if (table_.columns[i].share >= kTwiceAsWide &&
                widths_[i] - (has_ticks() ? box_ + kPad : 0) < style_.text * kNarrowest)
                return true;
        return widths_.front() < style_.text * 6.2;
    }

    std::shared_ptr<const Atom> head_atom() const {
        struct Head {
            PaperText title, note;
        };
        std::vector<Head> heads;
        double height = 0;
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            const double inner = widths_[i] - 2 * kPad;
            heads.push_back(
                {PaperText(paper_string(table_.columns[i].title), {style_.text, true, Qt::white}, inner),
                 PaperText(paper_string(table_.columns[i].note), {style_.text, false, Qt::white}, inner)});
            const bool note = !table_.columns[i].note.empty();
            height = std::max(height, heads.back().title.height() + (note ? heads.back().note.height() : 0));
        }
        auto atom = std::make_shared<Atom>();
        atom->height = height + 2 * kPad;
        atom->glue = Glue::hard;
        atom->paint = [heads, widths = widths_, width = width_, height](QPainter& painter,
                                                                        const QPointF& at) {
            painter.fillRect(QRectF(at, QSizeF(width, height + 2 * kPad)), kPaperInk);
            double x = at.x() + kPad;
            for (std::size_t i = 0; i < heads.size(); ++i) {
                heads[i].title.paint(painter, {x, at.y() + kPad});
                heads[i].note.paint(painter, {x, at.y() + kPad + heads[i].title.height()});
                x += widths[i];
            }
        };
        return atom;
    }

    std::shared_ptr<Atom> band_atom(const std::vector<std::string>& lines) const {
        std::vector<PaperText> texts;
        double height = 2 * kPad;
        for (const std::string& line : lines) {
            texts.emplace_back(paper_string(line),
                               PaperText::Face{style_.text, &line == &lines.front(), kPaperInk},
                               width_ - 2 * kPad);
            height += texts.back().height();
        }
        auto atom = std::make_shared<Atom>();
        atom->height = height;
        atom->glue = Glue::hard;
        atom->paint = [texts, height, width = width_](QPainter& painter, const QPointF& at) {
            painter.fillRect(QRectF(at, QSizeF(width, height)), kPaperFill);
            painter.fillRect(QRectF(at, QSizeF(width, 1.6)), kPaperInk);
            double y = at.y() + kPad;
            for (const PaperText& text : texts) {
                text.paint(painter, {at.x() + kPad, y});
                y += text.height();
            }
        };
        return atom;
    }

    void set_group(const Group& group) {
        Atoms heads;
        if (head_) heads.push_back(head_);
        Atoms again = heads;
        if (!group.continued.empty()) again.push_back(band_atom({group.continued}));
        const Atoms lead = group.lead.empty() ? Atoms{} : lead_atoms(group.lead);
        again.insert(again.end(), lead.begin(), lead.end());
        if (&group == &table_.groups.front() && head_) atoms_.push_back(head_);
        if (!group.band.empty()) {
            auto band = band_atom(group.band);
            band->glue = group.rows.empty() ? Glue::none : Glue::hard;
            if (&group != &table_.groups.front()) band->repeated = heads;
            atoms_.push_back(band);
        }
        atoms_.insert(atoms_.end(), lead.begin(), lead.end());
        for (const Row& row : group.rows) {
            const bool last = &row == &group.rows.back();
            const bool leads = group.band.empty() && &row == &group.rows.front();
            const Atoms& repeat = leads ? (&group == &table_.groups.front() ? Atoms{} : heads) : again;
            if (stacked_)
                set_stacked(row, repeat, last);
            else
                set_row(row, repeat, last);
        }
    }

    /// The leading row of a group, on grey, held to what follows it.
    Atoms lead_atoms(const Row& row) {
        Atoms kept = std::move(atoms_);
        atoms_.clear();
        if (stacked_)
            set_stacked(row, {}, false);
        else
            set_row(row, {}, false);
        Atoms lead = std::exchange(atoms_, std::move(kept));
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

    void set_row(const Row& row, const Atoms& repeat, bool last) {
        std::vector<std::vector<Element>> cells;
        std::vector<std::vector<double>> boxes;
        double height = 0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const double indent = row[i].tick_box ? box_ + kPad : 0;
            CellSetter setter(style_, widths_[i] - 2 * kPad - indent);
            setter.add_cell(row[i]);
            height = std::max(height, setter.height());
            boxes.push_back(setter.box_tops());
            cells.push_back(std::move(setter).take());
        }
        auto atom = std::make_shared<Atom>();
        atom->height = height + 2 * kPad;
        atom->glue = last ? Glue::none : Glue::soft;
        atom->repeated = repeat;
        atom->paint = [cells, boxes, row, widths = widths_, columns = table_.columns, box = box_,
                       height = atom->height, width = width_](QPainter& painter, const QPointF& at) {
            double x = at.x();
            for (std::size_t i = 0; i < cells.size(); ++i) {
                const QPointF corner(x + kPad, at.y() + kPad);
                painter.setPen(QPen(kPaperRule, columns[i].sum ? 1.6 : 0.5));
                if (i > 0) painter.drawLine(QPointF(x, at.y()), QPointF(x, at.y() + height));
                paint_tick_boxes(painter, corner + QPointF(0, 1), boxes[i], box);
                paint_all(painter, cells[i], corner + QPointF(row[i].tick_box ? box + kPad : 0, 0));
                x += widths[i];
            }
            painter.setPen(QPen(kPaperRule, 0.7));
            painter.drawLine(at + QPointF(0, height), at + QPointF(width, height));
        };
        atoms_.push_back(atom);
    }

    /// One line of a stacked row: the column's title on the left, its cell on the right.
    std::shared_ptr<Atom> stacked_line(const Column& column, const Cell& cell) const {
        const double left_width = width_ * 0.30;
        const double indent = box_ + kPad;
        CellSetter title(style_, left_width - 3 * kPad);
        const bool clock = !column.note.empty() && !column.sum;
        title.add_text(clock ? column.title + " " + column.note : column.title, column.sum);
        CellSetter setter(style_, width_ - left_width - indent - 2 * kPad);
        if (column.sum)
            for (const std::string& line : cell.lines) setter.add_text(line + ", " + column.note, false);
        else
            setter.add_cell(cell);
        auto atom = std::make_shared<Atom>();
        atom->height = std::max(title.height(), setter.height()) + kPad;
        atom->glue = Glue::soft;
        const std::vector<double> boxes = setter.box_tops();
        atom->paint = [title = std::move(title).take(), cell = std::move(setter).take(), left_width, indent,
                       box = box_, boxes, width = width_](QPainter& painter, const QPointF& at) {
            painter.setPen(QPen(kPaperRule, 0.4));
            painter.drawLine(at + QPointF(kPad, 0), at + QPointF(width, 0));
            paint_all(painter, title, at + QPointF(2 * kPad, kPad / 2));
            paint_tick_boxes(painter, at + QPointF(left_width, kPad / 2 + 1), boxes, box);
            paint_all(painter, cell, at + QPointF(left_width + indent, kPad / 2));
        };
        return atom;
    }

    void set_stacked(const Row& row, const Atoms& repeat, bool last) {
        std::string title = row.front().strong.empty() ? std::string() : row.front().strong.front();
        for (const std::string& line : row.front().lines) title += (title.empty() ? "" : " ") + line;
        const auto head_line = [&](Glue glue) {
            const PaperText set(paper_string(title), {style_.text, true, kPaperInk}, width_);
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
        auto first = head_line(Glue::hard);
        first->repeated = repeat;
        Atoms again = repeat;
        again.push_back(head_line(Glue::hard));
        atoms_.push_back(first);
        std::vector<std::shared_ptr<Atom>> lines;
        double height = first->height;
        for (std::size_t i = 1; i < row.size(); ++i) {
            if (row[i] == Cell{}) continue;
            lines.push_back(stacked_line(table_.columns[i], row[i]));
            lines.back()->repeated = again;
            height += lines.back()->height;
        }
        // A day stays whole unless it alone fills a page.
        const bool whole = height < style_.page.height() * kMostOfAPage;
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
    std::vector<double> widths_;
    bool stacked_ = false;
    std::shared_ptr<const Atom> head_;
    Atoms atoms_;
};

}  // namespace

Atoms table_atoms(const Table& table, const PaperStyle& style, double width) {
    return TableSetter(table, style, width).set();
}

}  // namespace evenfall::ui
