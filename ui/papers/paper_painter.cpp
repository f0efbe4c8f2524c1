// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_painter.h"

#include <QPainter>
#include <algorithm>
#include <functional>
#include <utility>
#include <variant>

#include "papers/paper_blocks.h"
#include "rules/texts.h"

namespace evenfall::ui {

namespace {

constexpr double kUnderHead = 0.75;  // sizes of small type between a page's head and what it holds
constexpr double kOverFoot = 0.8;    // the same above the line over its foot
constexpr double kFootPad = 2;       // points under that line

/// The paper with so many of the last things that may stand at its end there, where its pages are needed for
/// their rows.
papers::Document with_the_rest_last(papers::Document document, std::ptrdiff_t count) {
    std::ptrdiff_t stays = std::ranges::count_if(document.blocks, &papers::Block::may_end) - count;
    for (papers::Block& block : document.blocks)
        if (block.may_end && stays-- > 0) block.may_end = false;
    const auto last =
        std::ranges::stable_partition(document.blocks, std::logical_not(), &papers::Block::may_end);
    if (last.begin() != document.blocks.begin())
        for (auto block = std::prev(last.begin()); block + 1 != document.blocks.end(); ++block)
            block->with_next = true;
    return document;
}

bool has_boxes(const papers::Document& document) {
    return std::ranges::any_of(document.blocks, [](const papers::Block& block) {
        return std::holds_alternative<papers::Grid>(block.content);
    });
}

}  // namespace

std::optional<PaperPainter> PaperPainter::best(const papers::Document& document,
                                               const PaperOptions& options) {
    const auto worth = [](const PaperPainter& paper) {
        return std::pair(pages_without_row(paper.pages_), paper.pages_.size());
    };
    std::optional<PaperPainter> best;
    struct Manner {
        bool tight, divides_boxes, close;
    };
    for (const auto [tight, divides_boxes, close] : {Manner{false, false, false}, Manner{true, false, false},
                                                     Manner{true, true, false}, Manner{true, false, true}}) {
        if (close && best && pages_without_row(best->pages_) == 0) continue;
        // Large print has many pages as it is: a page less is worth no divided box.
        if (divides_boxes && (options.large_print || !has_boxes(document))) continue;
        PaperPainter paper(document, options, tight);
        paper.style_.divides_boxes = divides_boxes;
        if (close) paper.style_.set_close();
        if (paper.set_pages() && (!best || worth(paper) < worth(*best))) best = std::move(paper);
        if (best && best->page_count() == 1) break;
    }
    return best;
}

Result<PaperPainter> PaperPainter::set(const papers::Document& document, const PaperOptions& options) {
    if (!paper_font_available()) return Fault{"paper-font-missing", {}, {{"font", kPaperFont}}};
    auto whole = best(document, options);
    if (!whole) return Fault{"paper-does-not-fit", {}, {}};
    const auto movable = std::ranges::count_if(document.blocks, &papers::Block::may_end);
    for (std::ptrdiff_t count = 1; count <= movable && pages_without_row(whole->pages_) > 0; ++count) {
        auto moved = best(with_the_rest_last(document, count), options);
        if (moved && pages_without_row(moved->pages_) < pages_without_row(whole->pages_))
            whole = std::move(moved);
    }
    return std::move(*whole);
}

bool PaperPainter::set_pages() {
    PaperSetter setter(style_, content_width());
    setter.set_head(document_);
    for (const papers::Block& block : document_.blocks) setter.set(block);
    Atoms atoms = std::move(setter).take();
    // The first page has no head but its title; a card stays in its frame.
    if (!document_.card) atoms.insert(atoms.begin(), space(-head_height(), Glue::hard));
    auto pages = flow_evenly(atoms, page_room());
    if (!pages) return false;
    pages_ = std::move(*pages);
    return true;
}

double PaperPainter::page_room() const {
    return style_.page.height() - 2 * style_.margin - head_height() - foot_height();
}

double PaperPainter::content_width() const {
    // A card folds to 86 mm by 54 mm, the size of an identity card (ISO/IEC 7810, ID-1); large print needs
    // more.
    if (document_.card && !options_.large_print) return 86 / 25.4 * 72;
    return style_.width();
}

PaperText PaperPainter::head() const {
    return PaperText(paper_string(document_.title + " · " + document_.footer.patient),
                     {style_.small, true, kPaperInk}, style_.width());
}

double PaperPainter::head_height() const {
    return head().height() + style_.small * kUnderHead;
}

PaperPainter::Foot PaperPainter::foot() const {
    const papers::Footer& foot = document_.footer;
    const PaperText::Face face{style_.small, false, kPaperInk};
    double right = style_.page.width() - style_.margin;
    if (foot.mark) right -= mark_side(*foot.mark) + style_.small;  // so that a scanner finds its edge
    const PaperText widest_count(paper_string(fill(foot.page, {{"page", "88"}, {"pages", "88"}})),
                                 {style_.small, true, kPaperInk}, style_.width());
    const double width = right - style_.margin - widest_count.natural_width() - style_.gap;
    return {PaperText(paper_string(foot.patient + " · " + foot.version), face, width),
            PaperText(paper_string(foot.replaces), face, width), right};
}

double PaperPainter::foot_height() const {
    const papers::Footer& said = document_.footer;
    const Foot set = foot();
    const double words = kOverFoot * style_.small + set.left.height() +
                         (said.replaces.empty() ? 0 : set.replaces.height()) + kFootPad;
    return said.mark ? std::max(words, mark_side(*said.mark)) : words;
}

QPageLayout PaperPainter::page_layout() const {
    const QPageSize size(options_.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter);
    return QPageLayout(size, QPageLayout::Portrait, QMarginsF(0, 0, 0, 0), QPageLayout::Point);
}

void PaperPainter::paint(QPainter& painter, int page) const {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::TextAntialiasing);
    if (page > 0) paint_head(painter);
    const QPointF corner(style_.margin, style_.margin + head_height());
    for (const PlacedAtom& placed : pages_.at(static_cast<std::size_t>(page))) {
        if (!placed.atom->paint) continue;
        painter.save();
        placed.atom->paint(painter, corner + QPointF(0, placed.top));
        painter.restore();
    }
    if (document_.card) paint_card_frame(painter, page);
    paint_foot(painter, page);
    painter.restore();
}

void PaperPainter::paint_head(QPainter& painter) const {
    head().paint(painter, {style_.margin, style_.margin});
}

void PaperPainter::paint_card_frame(QPainter& painter, int page) const {
    const PaperPage& atoms = pages_.at(static_cast<std::size_t>(page));
    if (atoms.empty()) return;
    const double height = atoms.back().top + atoms.back().atom->height;
    QPen pen(kPaperRule, 0.8);
    pen.setDashPattern({5, 4});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    const QRectF content(style_.margin, style_.margin + head_height(), content_width(), height);
    painter.drawRect(content.adjusted(-10, -8, 10, 8));
}

void PaperPainter::paint_foot(QPainter& painter, int page) const {
    const papers::Footer& said = document_.footer;
    const double top = style_.page.height() - style_.margin - foot_height() + style_.small * kOverFoot;
    const double edge = style_.page.width() - style_.margin;
    painter.setPen(QPen(kPaperRule, 0.6));
    painter.drawLine(QPointF(style_.margin, top), QPointF(edge, top));
    if (said.mark) paint_mark(painter, {edge - mark_side(*said.mark), top + 1}, *said.mark);
    const Foot set = foot();
    const std::string count =
        fill(said.page, {{"page", std::to_string(page + 1)}, {"pages", std::to_string(page_count())}});
    const PaperText number(paper_string(count), {style_.small, true, kPaperInk}, style_.width());
    set.left.paint(painter, {style_.margin, top + kFootPad});
    number.paint(painter, {set.right - number.natural_width(), top + kFootPad});
    if (!said.replaces.empty())
        set.replaces.paint(painter, {style_.margin, top + kFootPad + set.left.height()});
}

QString paper_title(const papers::Document& document) {
    return paper_string("Evenfall · " + document.paper + " · " + document.footer.version);
}

QImage PaperPainter::picture(int page, double scale) const {
    QImage image((style_.page * scale).toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.scale(scale, scale);
    paint(painter, page);
    return image;
}

}  // namespace evenfall::ui
