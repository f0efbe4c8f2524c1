// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <algorithm>

#include "papers/paper_blocks.h"

namespace evenfall::ui {

using namespace papers;

namespace {

constexpr double kLeastSide = 20;  // of a side's width, in sizes of type: below it one stands under the other
constexpr double kSideGap = 18;    // points between two sides
constexpr double kMostSide = 0.6;  // of a page's height: a higher side stands alone and may be divided
constexpr double kModule = 1.25;   // points; 0.44 mm, more than four dots of a 300 dpi printer
constexpr int kQuiet = 4;          // modules of white around a symbol (ISO/IEC 18004)

}  // namespace

double mark_side(const Mark& mark) {
    return kModule * (mark.size + 2 * kQuiet);
}

void paint_mark(QPainter& painter, const QPointF& corner, const Mark& mark) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.fillRect(QRectF(corner, QSizeF(mark_side(mark), mark_side(mark))), Qt::white);
    const auto dark = [&](int row, int column) {
        return mark.modules[static_cast<std::size_t>(row * mark.size + column)];
    };
    for (int row = 0; row < mark.size; ++row)
        for (int column = 0, end = 0; column < mark.size; column = end + 1) {
            end = column;
            while (end < mark.size && dark(row, end)) ++end;
            if (end == column) continue;
            painter.fillRect(QRectF(corner.x() + kModule * (column + kQuiet),
                                    corner.y() + kModule * (row + kQuiet), kModule * (end - column), kModule),
                             Qt::black);
        }
    painter.restore();
}

std::shared_ptr<Atom> PaperSetter::joined(const Atoms& atoms) {
    auto whole = std::make_shared<Atom>();
    for (const auto& atom : atoms) whole->height += atom->height;
    whole->paint = [atoms](QPainter& painter, const QPointF& at) {
        double y = at.y();
        for (const auto& atom : atoms) {
            if (atom->paint) atom->paint(painter, {at.x(), y});
            y += atom->height;
        }
    };
    return whole;
}

void PaperSetter::set_side(const Side& side, Glue glue) {
    if (!side.title.empty()) set_content(Heading{side.title, 2}, Glue::hard);
    if (!side.items.empty()) set_content(List{side.items, side.boxes}, side.rows.empty() ? glue : Glue::none);
    if (!side.rows.empty()) set_content(KeyValues{side.rows, true}, glue);
}

void PaperSetter::set_content(const Sides& sides, Glue glue) {
    const double half = (width_ - kSideGap) / 2;
    if (half < style_.text * kLeastSide) {
        for (const Side& side : sides.sides) set_side(side, &side == &sides.sides.back() ? glue : Glue::none);
        return;
    }
    for (std::size_t i = 0; i < sides.sides.size(); i += 2) {
        std::vector<std::shared_ptr<Atom>> pair;
        for (std::size_t j = i; j < std::min(i + 2, sides.sides.size()); ++j) {
            PaperSetter setter(style_, half);
            setter.set_side(sides.sides[j], Glue::none);
            pair.push_back(joined(std::move(setter).take()));
        }
        double height = 0;
        for (const auto& side : pair) height = std::max(height, side->height);
        if (height > kMostSide * style_.page.height()) {
            for (std::size_t j = i; j < i + pair.size(); ++j)
                set_side(sides.sides[j], j + 1 == sides.sides.size() ? glue : Glue::none);
            continue;
        }
        add(
            height,
            [pair, half](QPainter& painter, const QPointF& at) {
                double x = at.x();
                for (const auto& side : pair) {
                    side->paint(painter, {x, at.y()});
                    x += half + kSideGap;
                }
            },
            i + 2 >= sides.sides.size() ? glue : Glue::none);
    }
}

void PaperSetter::set_content(const Mark& mark, Glue glue) {
    const double side = mark_side(mark);
    const PaperText words = text(mark.caption, plain(), width_ - side - style_.gap);
    const double height = std::max(side, words.height());
    add(
        height,
        [mark, words, side, height, gap = style_.gap](QPainter& painter, const QPointF& at) {
            paint_mark(painter, at, mark);
            words.paint(painter, at + QPointF(side + gap, (height - words.height()) / 2));
        },
        Glue::hard);
    atoms_.push_back(space(style_.gap, glue));
}

}  // namespace evenfall::ui
