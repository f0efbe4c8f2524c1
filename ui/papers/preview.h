// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QScrollArea>
#include <optional>

#include "papers/paper_painter.h"
#include "papers/paper_text.h"

namespace evenfall::ui {

/// One page of a paper as it will be printed, at any size: what the PDF and the printer get, painted by the
/// same function.
class PaperPreview : public QScrollArea {
    Q_OBJECT

  public:
    explicit PaperPreview(QWidget* parent = nullptr);

    /// Shows a paper, on the page that was shown of the last one where it has so many; nothing where there is
    /// none.
    void set_paper(std::optional<PaperPainter> paper);
    const std::optional<PaperPainter>& paper() const { return paper_; }
    /// The page that is shown, from 0.
    int page() const { return page_; }
    /// Shows a page, or the nearest that there is.
    void show_page(int page);
    /// Pixels a point; zero fits the width of the page into the view.
    void set_zoom(double zoom);
    /// Pixels a point, as the page is shown now.
    double zoom() const;

  signals:
    /// Another page, or another paper, is shown.
    void page_changed();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

  private:
    class Sheet;
    void lay_out();

    std::optional<PaperPainter> paper_;
    Sheet* sheet_;
    int page_ = 0;
    double zoom_ = 0;
};

}  // namespace evenfall::ui
