// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/table_heads.h"

#include <QPainter>
#include <algorithm>
#include <numeric>

#include "papers/paper_columns.h"
#include "papers/paper_text.h"

namespace evenfall::ui {

double row_padding(const PaperStyle& style) {
    return style.tight ? kCellPad / 2 : kCellPad;
}

std::shared_ptr<const Atom> column_heads(const papers::Table& table, const std::vector<double>& widths,
                                         const PaperStyle& style) {
    struct Head {
        PaperText title, note;
    };
    std::vector<Head> heads;
    double height = 0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const double inner = widths[i] - 2 * kCellPad;
        heads.push_back(
            {PaperText(paper_string(table.columns[i].title), {style.text, true, Qt::white}, inner),
             PaperText(paper_string(table.columns[i].note), {style.text, false, Qt::white}, inner)});
        const bool note = !table.columns[i].note.empty();
        height = std::max(height, heads.back().title.height() + (note ? heads.back().note.height() : 0));
    }
    const double drop = row_padding(style);
    const double width = std::accumulate(widths.begin(), widths.end(), 0.0);
    auto atom = std::make_shared<Atom>();
    atom->height = height + 2 * drop;
    atom->glue = Glue::hard;
    atom->paint = [heads, widths, width, height, drop](QPainter& painter, const QPointF& at) {
        painter.fillRect(QRectF(at, QSizeF(width, height + 2 * drop)), kPaperInk);
        double x = at.x() + kCellPad;
        for (std::size_t i = 0; i < heads.size(); ++i) {
            heads[i].title.paint(painter, {x, at.y() + drop});
            heads[i].note.paint(painter, {x, at.y() + drop + heads[i].title.height()});
            x += widths[i];
        }
    };
    return atom;
}

std::shared_ptr<Atom> band_atom(const std::vector<std::string>& lines, const PaperStyle& style,
                                double width) {
    const double drop = row_padding(style);
    std::vector<PaperText> texts;
    double height = 2 * drop;
    for (const std::string& line : lines) {
        texts.emplace_back(paper_string(line),
                           PaperText::Face{style.text, &line == &lines.front(), kPaperInk},
                           width - 2 * kCellPad);
        height += texts.back().height();
    }
    auto atom = std::make_shared<Atom>();
    atom->height = height;
    atom->glue = Glue::hard;
    atom->paint = [texts, height, width, drop](QPainter& painter, const QPointF& at) {
        painter.fillRect(QRectF(at, QSizeF(width, height)), kPaperFill);
        painter.fillRect(QRectF(at, QSizeF(width, 1.6)), kPaperInk);
        double y = at.y() + drop;
        for (const PaperText& text : texts) {
            text.paint(painter, {at.x() + kCellPad, y});
            y += text.height();
        }
    };
    return atom;
}

}  // namespace evenfall::ui
