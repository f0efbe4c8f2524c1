// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QImage>
#include <QPageLayout>
#include <QSizeF>
#include <optional>

#include "papers/document.h"
#include "papers/paper_flow.h"
#include "papers/paper_style.h"
#include "papers/paper_text.h"
#include "units/result.h"

class QPainter;

namespace evenfall::ui {

/// A paper set on pages: one painting for preview, PDF and printer.
class PaperPainter {
  public:
    /// Loosely where that takes no page more than tightly; with what may stand at the end there where a page
    /// would hold no row for it. Faults: `paper-font-missing`, `paper-does-not-fit`.
    static Result<PaperPainter> set(const papers::Document& document, const PaperOptions& options);

    int page_count() const { return static_cast<int>(pages_.size()); }
    QSizeF page_size() const { return style_.page; }  ///< in points
    QPageLayout page_layout() const;
    const PaperOptions& options() const { return options_; }
    const papers::Document& document() const { return document_; }

    /// Paints a page, from 0. The painter's unit must be one point, its origin the page's corner.
    void paint(QPainter& painter, int page) const;
    /// A page as a picture, `scale` pixels a point.
    QImage picture(int page, double scale) const;

  private:
    PaperPainter(papers::Document document, const PaperOptions& options, bool tight)
        : document_(std::move(document)), options_(options), style_(options, document_.for_record, tight) {}
    /// The first of loose, tight, with small boxes divided, and (for the rows of pages that have none) with
    /// close headings that takes the fewest pages; nothing where
    /// something is higher than a page.
    static std::optional<PaperPainter> best(const papers::Document& document, const PaperOptions& options);
    /// False where something is higher than a page.
    bool set_pages();
    double page_room() const;
    void paint_head(QPainter& painter) const;
    void paint_foot(QPainter& painter, int page) const;
    /// Where a card is cut out.
    void paint_card_frame(QPainter& painter, int page) const;
    /// What a foot says left of the page's number, and where the number ends.
    struct Foot {
        PaperText left, replaces;
        double right;
    };
    PaperText head() const;
    Foot foot() const;
    double head_height() const;
    double foot_height() const;
    double content_width() const;

    papers::Document document_;
    PaperOptions options_;
    PaperStyle style_;
    std::vector<PaperPage> pages_;
};

/// What a paper is called where the patient's name must not stand: "Evenfall schedule 4F7K-X2MC".
QString paper_title(const papers::Document& document);

}  // namespace evenfall::ui
