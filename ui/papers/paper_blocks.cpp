// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_blocks.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kNames = 0.40;     // of the width, for names before values
constexpr double kMostWhole = 0.5;  // of a page's height, for a text that no page break divides
constexpr int kLinesTogether = 3;   // of one that a page break divides, at its beginning and its end

}  // namespace

PaperText PaperSetter::text(const std::string& text, const PaperText::Face& face, double width) const {
    return PaperText(paper_string(text), face, width);
}

void PaperSetter::add(double height, std::function<void(QPainter&, const QPointF&)> paint, Glue glue) {
    auto atom = std::make_shared<Atom>();
    atom->height = height;
    atom->paint = std::move(paint);
    atom->glue = glue;
    atom->begins_page = std::exchange(break_next_, false);
    atoms_.push_back(std::move(atom));
}

void PaperSetter::append(Atoms made, double below, Glue glue) {
    const auto change = [](std::shared_ptr<const Atom>& atom, auto how) {
        auto changed = std::make_shared<Atom>(*atom);
        how(*changed);
        atom = std::move(changed);
    };
    if (made.empty()) return;
    if (std::exchange(break_next_, false)) change(made.front(), [](Atom& atom) { atom.begins_page = true; });
    if (glue == Glue::hard) change(made.back(), [](Atom& atom) { atom.glue = Glue::hard; });
    atoms_.insert(atoms_.end(), made.begin(), made.end());
    atoms_.push_back(space(below, glue));
}

void PaperSetter::add_text(const std::string& words, const PaperText::Face& face, Glue glue) {
    if (words.empty()) return;
    const std::vector<PaperText> parts = parts_of(text(words, face, width_));
    for (const PaperText& part : parts)
        add(
            part.height(), [part](QPainter& painter, const QPointF& at) { part.paint(painter, at); },
            &part == &parts.back() ? glue : Glue::soft);
}

std::vector<PaperText> PaperSetter::parts_of(const PaperText& text) const {
    if (text.height() <= kMostWhole * style_.page.height()) return {text};
    const int lines = static_cast<int>(text.lines().size());
    std::vector<PaperText> parts{text.part(0, kLinesTogether)};
    for (int i = kLinesTogether; i < lines - kLinesTogether; ++i) parts.push_back(text.part(i, 1));
    parts.push_back(text.part(lines - kLinesTogether, kLinesTogether));
    return parts;
}

void PaperSetter::set_head(const Document& document) {
    const double title = document.card ? style_.heading : style_.title;
    add_text(document.title, {title, true, kPaperInk}, Glue::hard);
    add_text(document.subtitle, {style_.heading, true, kPaperInk}, Glue::hard);
    atoms_.push_back(space(style_.gap / 2, Glue::hard));
    add_text(document.patient, plain(), Glue::hard);
    atoms_.push_back(space(style_.gap, Glue::hard));
}

void PaperSetter::set(const Block& block) {
    std::visit([&](const auto& content) { set_content(content, block.with_next ? Glue::hard : Glue::none); },
               block.content);
}

void PaperSetter::set_content(const Heading& heading, Glue glue) {
    if (!break_next_) atoms_.push_back(space(style_.gap * 1.2, Glue::hard));
    add_text(heading.text, {heading.level == 1 ? style_.part : style_.heading, true, kPaperInk}, glue);
}

void PaperSetter::set_content(const Paragraph& paragraph, Glue glue) {
    add_text(paragraph.text, paragraph.strong ? bold() : plain(), Glue::hard);
    atoms_.push_back(space(style_.gap, glue));
}

void PaperSetter::set_content(const Notice& notice, Glue glue) {
    const double pad = style_.text * style_.notice;
    std::vector<PaperText> lines;
    if (!notice.title.empty())
        lines.push_back(text(notice.title, {style_.heading, true, kPaperInk}, width_ - 2 * pad));
    for (const std::string& line : notice.lines) lines.push_back(text(line, plain(), width_ - 2 * pad));
    double height = 1.4 * pad + (static_cast<double>(lines.size()) - 1) * 2;
    for (const PaperText& line : lines) height += line.height();
    const double width = width_;
    add(
        height,
        [lines, height, width, pad](QPainter& painter, const QPointF& at) {
            painter.setPen(QPen(kPaperInk, 1.5));
            painter.setBrush(kPaperFill);
            painter.drawRoundedRect(QRectF(at, QSizeF(width, height)).adjusted(0.75, 0.75, -0.75, -0.75), 5,
                                    5);
            double y = at.y() + 0.7 * pad;
            for (const PaperText& line : lines) {
                line.paint(painter, {at.x() + pad, y});
                y += line.height() + 2;
            }
        },
        Glue::hard);
    atoms_.push_back(space(style_.gap * 1.4, glue));
}

void PaperSetter::set_content(const List& list, Glue glue) {
    const double indent = list.boxes ? style_.text * 1.7 : style_.text * 1.1;
    for (const std::string& item : list.items) {
        const bool last = &item == &list.items.back();
        const double size = style_.text;
        const bool boxes = list.boxes;
        const std::vector<PaperText> parts = parts_of(text(item, plain(), width_ - indent));
        for (const PaperText& part : parts) {
            const bool begins = &part == &parts.front();
            const bool ends = &part == &parts.back();
            add(
                part.height() + (!ends          ? 0
                                 : style_.tight ? 0.5
                                                : 2),
                [part, begins, size, boxes, indent](QPainter& painter, const QPointF& at) {
                    painter.setPen(QPen(kPaperInk, 1));
                    painter.setBrush(boxes ? QBrush(Qt::white) : QBrush(kPaperInk));
                    if (begins && boxes)
                        painter.drawRect(QRectF(at.x() + 1, at.y() + size * 0.14, size, size));
                    else if (begins)
                        painter.drawEllipse(QPointF(at.x() + size * 0.4, at.y() + size * 0.66), size * 0.13,
                                            size * 0.13);
                    part.paint(painter, {at.x() + indent, at.y()});
                },
                last && ends ? Glue::hard : Glue::soft);
        }
    }
    atoms_.push_back(space(style_.gap, glue));
}

void PaperSetter::set_content(const KeyValues& values, Glue glue) {
    const double apart = std::max(style_.gap, style_.text * 0.7);  // a name from its value
    double name_width = width_ * kNames;
    if (style_.large) {  // no wider than the names need
        double widest = 0;
        for (const auto& [name, value] : values.rows)
            widest = std::max(widest, text(name, plain(), 1e5).natural_width());
        name_width = std::min(name_width, widest + 2 * apart + 1);
    }
    const PaperText::Face face = values.strong ? PaperText::Face{style_.heading, true, kPaperInk} : plain();
    for (const auto& [name, value] : values.rows) {
        const PaperText left = text(name, plain(), name_width - apart);
        const PaperText right = text(value, face, width_ - name_width);
        const double drop = std::max(0.0, (right.height() - left.height()) / 2);
        const double left_top = right.height() > 1.6 * left.height() ? 0 : drop;
        const bool last = &name == &values.rows.back().first;
        const std::vector<PaperText> parts = parts_of(right);
        for (const PaperText& part : parts) {
            const bool begins = &part == &parts.front();
            const bool ends = &part == &parts.back();
            const double height = std::max(begins ? left.height() : 0, part.height()) + (ends ? 3 : 0);
            const double width = width_;
            add(
                height,
                [=](QPainter& painter, const QPointF& at) {
                    if (begins) left.paint(painter, at + QPointF(0, left_top));
                    part.paint(painter, at + QPointF(name_width, 0));
                    if (!ends) return;
                    painter.setPen(QPen(kPaperRule, 0.4));
                    painter.drawLine(at + QPointF(0, height - 1), at + QPointF(width, height - 1));
                },
                last && ends ? Glue::hard : Glue::soft);
        }
    }
    atoms_.push_back(space(style_.gap, glue));
}

void PaperSetter::set_content(const Table& table, Glue glue) {
    append(table_atoms(table, style_, width_), style_.gap * 1.4, glue);
}

void PaperSetter::set_content(const Signature& signature, Glue glue) {
    add_text(signature.statement, plain(), Glue::hard);
    const double half = width_ / 2;
    struct Line {
        PaperText label, filled;
    };
    std::vector<Line> lines;
    std::vector<double> rows;
    double height = 0;
    // Of an odd number the first stands alone: signature and date stay beside each other.
    const std::size_t alone = signature.lines.size() % 2;
    for (const auto& [label, filled] : signature.lines) {
        if (lines.size() < alone || (lines.size() + alone) % 2 == 0) rows.push_back(style_.text * 3.1);
        lines.push_back({text(label, plain(), half - 20), text(filled, bold(), half - 20)});
        rows.back() = std::max(rows.back(), lines.back().filled.height() + lines.back().label.height() + 6);
    }
    for (const double row : rows) height += row;
    add(
        height,
        [lines, rows, half, alone](QPainter& painter, const QPointF& at) {
            double top = at.y();
            for (std::size_t i = 0; i < lines.size(); ++i) {
                const bool right = i >= alone && (i + alone) % 2 == 1;
                const double row = rows[(i + alone) / 2];
                const QPointF corner(at.x() + (right ? half : 0), top);
                const double rule = row - lines[i].label.height() - 2;
                lines[i].filled.paint(painter, corner + QPointF(0, rule - lines[i].filled.height()));
                painter.setPen(QPen(kPaperInk, 0.8));
                painter.drawLine(corner + QPointF(0, rule), corner + QPointF(half - 20, rule));
                lines[i].label.paint(painter, corner + QPointF(0, rule + 1));
                if (right || i < alone) top += row;
            }
        },
        glue);
}

void PaperSetter::set_content(const PageBreak&, Glue) {
    break_next_ = true;
}

}  // namespace evenfall::ui
