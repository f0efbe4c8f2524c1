// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/preview.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>
#include <algorithm>

namespace evenfall::ui {
namespace {

constexpr double kLeastZoom = 0.4;
constexpr double kMostZoom = 5;
constexpr double kZoomStep = 1.2;

}  // namespace

/// The sheet itself: white whatever the theme, since it shows paper.
class PaperPreview::Sheet : public QWidget {
  public:
    explicit Sheet(PaperPreview& preview) : QWidget(&preview), preview_(preview) {}

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        painter.fillRect(rect(), Qt::white);
        if (!preview_.paper_) return;
        const double scale = preview_.zoom();
        painter.scale(scale, scale);
        preview_.paper_->paint(painter, preview_.page_);
    }

  private:
    PaperPreview& preview_;
};

PaperPreview::PaperPreview(QWidget* parent) : QScrollArea(parent), sheet_(new Sheet(*this)) {
    setWidget(sheet_);
    setAlignment(Qt::AlignHCenter | Qt::AlignTop);
    setAccessibleName(tr("Preview of the paper"));
    setFocusPolicy(Qt::StrongFocus);
}

void PaperPreview::set_paper(std::optional<PaperPainter> paper) {
    paper_ = std::move(paper);
    page_ = paper_ ? std::clamp(page_, 0, paper_->page_count() - 1) : 0;
    lay_out();
    emit page_changed();
}

void PaperPreview::show_page(int page) {
    if (!paper_) return;
    page_ = std::clamp(page, 0, paper_->page_count() - 1);
    verticalScrollBar()->setValue(0);
    sheet_->update();
    emit page_changed();
}

void PaperPreview::set_zoom(double zoom) {
    zoom_ = zoom <= 0 ? 0 : std::clamp(zoom, kLeastZoom, kMostZoom);
    lay_out();
}

double PaperPreview::zoom() const {
    if (zoom_ > 0 || !paper_) return zoom_ > 0 ? zoom_ : 1;
    return std::max(kLeastZoom, (viewport()->width() - 2) / paper_->page_size().width());
}

void PaperPreview::lay_out() {
    sheet_->setVisible(paper_.has_value());
    if (paper_) sheet_->resize((paper_->page_size() * zoom()).toSize());
    sheet_->update();
    // The words of the paper for a screen reader, which cannot read a picture.
    setAccessibleDescription(paper_ ? paper_string(papers::plain_text(paper_->document())) : QString());
}

void PaperPreview::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    if (zoom_ <= 0) lay_out();
}

void PaperPreview::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_PageDown:
            return show_page(page_ + 1);
        case Qt::Key_PageUp:
            return show_page(page_ - 1);
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            return set_zoom(zoom() * kZoomStep);
        case Qt::Key_Minus:
            return set_zoom(zoom() / kZoomStep);
        case Qt::Key_0:
            return set_zoom(0);
        default:
            QScrollArea::keyPressEvent(event);
    }
}

void PaperPreview::wheelEvent(QWheelEvent* event) {
    if (!(event->modifiers() & Qt::ControlModifier)) return QScrollArea::wheelEvent(event);
    set_zoom(event->angleDelta().y() > 0 ? zoom() * kZoomStep : zoom() / kZoomStep);
    event->accept();
}

}  // namespace evenfall::ui
